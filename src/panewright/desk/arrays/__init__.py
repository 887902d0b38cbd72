"""Arrays: what a maker asks of finished panels at a site."""
