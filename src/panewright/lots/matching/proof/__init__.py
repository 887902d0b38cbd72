"""Bounds that no way of matching exceeds."""
