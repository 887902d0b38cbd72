"""Cells measured, what was settled of them, and which goes where."""
