"""Pages of the build book, one file a group."""
