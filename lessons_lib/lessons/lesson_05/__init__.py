"""Lesson 5: what its page shows."""
