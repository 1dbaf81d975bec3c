"""Lesson 2: what its page shows."""
