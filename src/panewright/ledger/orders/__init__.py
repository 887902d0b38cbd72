"""What was asked: orders, what was designed of them, what was promised, and to whom."""
