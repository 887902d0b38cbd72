"""A serial from its beginning to what came back after it left."""
