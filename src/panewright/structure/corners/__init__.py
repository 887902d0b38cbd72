"""Corners of the frame: what they pass on, in wind and in hands."""
