"""What an instructor runs: give out, mark, report; sheets made from the model answers."""
