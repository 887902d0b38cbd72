"""Measured current-voltage curves: cleaned, read and fitted; a cell from a few meter readings."""
