"""A figure for every step: what moves is drawn whole, what lies there already as an outline."""
