"""What the parts cost, how long the work takes, and what the panel is sold for."""
