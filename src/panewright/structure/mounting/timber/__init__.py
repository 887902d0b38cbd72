"""Screws and bolts in timber, by two families of codes."""
