"""Lesson 8: what its page shows."""
