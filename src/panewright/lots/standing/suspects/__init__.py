"""What looks wrong in a lot, each with its reason; nothing is thrown away."""
