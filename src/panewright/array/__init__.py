"""Built panels wired at a site: which with which, and what they give through a year."""
