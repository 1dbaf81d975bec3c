"""What an instructor runs: give out, mark, report."""
