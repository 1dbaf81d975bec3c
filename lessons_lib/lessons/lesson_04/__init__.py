"""Lesson 4: what its page shows."""
