"""An order on a page: its form, its design, what is tried on it, and whose it is."""
