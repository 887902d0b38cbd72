"""A panel's whole curve by chords, in microseconds: for every hour of a year."""
