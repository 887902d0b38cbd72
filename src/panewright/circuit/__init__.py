"""Cells joined electrically: strings, joints, bypass diodes, and the curve of the whole."""
