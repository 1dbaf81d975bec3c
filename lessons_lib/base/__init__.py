"""Argument checks, materials and the workshop's data: what every other floor stands on."""
