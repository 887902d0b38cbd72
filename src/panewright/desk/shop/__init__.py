"""An open shop: one folder, and what can be asked of it."""
