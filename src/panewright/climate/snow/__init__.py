"""Snow: lying, drifting, sliding from a higher roof."""
