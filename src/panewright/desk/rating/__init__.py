"""A panel rated: what was typed and read, the rating, what is told of it, its paper, its place on record."""
