"""The stores: lots, stock and instruments."""
