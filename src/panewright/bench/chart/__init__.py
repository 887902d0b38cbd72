"""Control charts over many panels: when to stop and look, and what to look at."""
