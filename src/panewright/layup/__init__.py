"""Cells placed and joined on the pane: one geometry for every drawing and list."""
