"""A design as the papers and files a shop builds from."""
