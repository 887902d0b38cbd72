"""What was weighed for each choice, as tables."""
