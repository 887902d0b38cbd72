"""The site of an array: its text, read."""
