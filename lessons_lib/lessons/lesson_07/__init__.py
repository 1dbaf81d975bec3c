"""Lesson 7: what its page shows."""
