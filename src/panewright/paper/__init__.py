"""Neutral pages and drawings become bytes: PDF, SVG, DXF, XLSX, CSV, JSON."""
