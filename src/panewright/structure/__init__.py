"""Pane, rail and bead acting together."""
