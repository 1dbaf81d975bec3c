"""Lesson 1: what its page shows."""
