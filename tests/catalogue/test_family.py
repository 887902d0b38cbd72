"""A range's text becomes sizes, each the order that it is, or every mistake in it is told at once."""

from __future__ import annotations
