"""Sweeps of one panel or cell as they were taken: runs up and down, rests, drift, and how good they are."""
