"""What can be had: cells, ribbon, glass, rails, sealant, diodes, with price and source of each figure."""
