"""One panel and its life: what was done, built into it, read of it and repaired."""
