"""Copper wire: resistance and voltage drop."""
