"""Neutral pages and drawings become bytes: PDF, SVG, DXF, XLSX, CSV, JSON."""

from panewright.paper.leaf import render

__all__ = ["render"]
