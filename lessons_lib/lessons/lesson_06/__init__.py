"""Lesson 6: what its page shows."""
