"""How every cell of a lot stands: its curve in full sun, how well that is known, and what looks wrong."""
