"""A curve from nothing but a multimeter, some resistors and a lamp."""
