"""Readings at the bench and in the sun: what to expect, and what a reading says."""
