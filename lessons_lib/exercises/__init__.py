"""Exercises: declaration, given values, sealed sheets, answers and their notes, the log of a bench."""
