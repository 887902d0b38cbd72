"""The bench: the steps of a serial, what is read there, and what a hand types."""
