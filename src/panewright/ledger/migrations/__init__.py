"""How the schema grew. Each step in `versions` is fixed for ever: shops hold records made by it."""
