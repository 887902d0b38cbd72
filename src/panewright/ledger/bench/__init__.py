"""What was read: readings, ratings, charts, and the instruments that they come from."""
