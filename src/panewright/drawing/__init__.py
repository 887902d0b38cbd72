"""Neutral geometry in millimetres, charts and pages; no room here knows a file format."""
