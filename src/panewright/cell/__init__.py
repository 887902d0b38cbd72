"""One photovoltaic cell: its shape, its nameplate and its current-voltage curve."""
