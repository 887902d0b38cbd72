"""Drawings and charts of an array."""
