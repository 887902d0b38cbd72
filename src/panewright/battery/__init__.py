"""Batteries and the controllers that charge them: the window of voltage a string must meet."""
