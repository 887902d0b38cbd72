"""What lies in the shop: stock and its movements, cuts, goods on order, lots bought."""
