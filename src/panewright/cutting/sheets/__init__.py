"""Panels out of sheets by cuts from edge to edge."""
