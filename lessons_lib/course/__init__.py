"""What an instructor runs: sheets made from the model answers."""
