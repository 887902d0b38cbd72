"""Arrays: their texts, and which panel lies where in which of them since when."""
