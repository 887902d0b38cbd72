"""What is wrong with a panel: found by its readings, told to the cell by further ones, mended, kept."""
