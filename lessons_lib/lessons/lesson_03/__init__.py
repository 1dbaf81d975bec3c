"""Lesson 3: what its page shows."""
