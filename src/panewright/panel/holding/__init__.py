"""Lay-up, pane, bead, frame and mounting of a design."""
