"""Hot spots: a cell's worst shade, the watts it takes in, its heat, and the diodes that keep it cool."""
