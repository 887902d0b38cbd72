"""States of evenly pressed plates on four sides, reckoned beforehand: what most panes ask for."""
