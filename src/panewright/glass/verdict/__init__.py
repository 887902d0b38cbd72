"""A pane under its loads, held against one rule book, as checks."""
