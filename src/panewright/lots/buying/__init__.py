"""How many cells to buy, and of whom."""
