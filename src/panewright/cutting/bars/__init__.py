"""Pieces to bars: patterns, the programme over them, and plans with their proof."""
