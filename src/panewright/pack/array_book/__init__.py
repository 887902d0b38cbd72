"""The book of an array: how it is wired, where panels lie, what it gives, what to buy, in which order."""
