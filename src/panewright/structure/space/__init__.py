"""A frame of four rails in space: bending both ways, twist, brackets, corners, the pane's hold."""
