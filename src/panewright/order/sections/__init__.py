"""Each section of an order as records."""
