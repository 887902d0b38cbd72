"""Pieces to bars and sheets, with kerf and remnants."""
