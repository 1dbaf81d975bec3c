"""The whole pickup: what its page shows."""
