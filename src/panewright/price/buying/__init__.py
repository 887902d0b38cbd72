"""What to buy for all open orders, and what can leave when."""
