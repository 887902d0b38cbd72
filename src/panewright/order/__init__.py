"""What was asked: one order as text, or every mistake in it at once."""
