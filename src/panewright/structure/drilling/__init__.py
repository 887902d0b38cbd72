"""Holes: where they go, and what goes through them."""
