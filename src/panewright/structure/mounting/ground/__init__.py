"""Posts in soil, and ballast on it."""
