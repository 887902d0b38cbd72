"""A measured panel rated at standard conditions: light, heat, instruments, uncertainty, label and verdict."""
