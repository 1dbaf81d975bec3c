"""Lesson 0: what its page shows."""
