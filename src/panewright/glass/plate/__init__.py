"""A plate that bends far: equations, load path, faces, and the thin plate beside it."""
