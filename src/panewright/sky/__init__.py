"""Sun and clear sky over a place: where the sun stands, and how much light a tilted panel gets of it."""
