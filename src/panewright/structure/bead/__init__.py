"""The bead between pane and rail: proof, peaks, peel, choice."""
