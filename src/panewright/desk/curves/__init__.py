"""A measured curve as a person brings it: a file of sweeps, or readings of a meter."""
