"""Which cell goes where: cells put into strings and panels, with a bound that no other way exceeds."""
