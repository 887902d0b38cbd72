"""The silicone bead that holds the pane and lets it move."""
