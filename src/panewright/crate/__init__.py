"""How finished panels travel: crate, cushion, carrier."""
