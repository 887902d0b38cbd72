"""A year of weather out of a file as people have it: EPW, TMY3, TMY2 or PVGIS."""
