"""Light through a sheet, colour by colour, and light that finds its way back to a cell."""
