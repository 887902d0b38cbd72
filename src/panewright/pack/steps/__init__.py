"""What is done at the bench, in order, with what to check and what to read."""
