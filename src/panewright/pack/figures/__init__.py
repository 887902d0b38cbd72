"""Figures that belong to no other room: the finished panel, frame, edge, bars, label."""
