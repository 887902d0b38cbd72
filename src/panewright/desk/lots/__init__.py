"""Lots of measured cells: how their tables are read, how they stand, what is suspected."""
