"""Solder-coated copper strip: what it resists, what it shades, what it weighs."""
