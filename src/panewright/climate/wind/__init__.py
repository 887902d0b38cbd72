"""Wind: pressure, coefficients, terrain, hills, by two families of codes."""
