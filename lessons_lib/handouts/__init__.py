"""Lessons on paper: every page as one file that prints, with three states of each panel and room for answers."""
