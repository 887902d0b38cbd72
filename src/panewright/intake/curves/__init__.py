"""Curves as people have them: the tables of a file, what its columns are, its sweeps."""
