"""Panels over days: who does which step when, what lies still meanwhile, and how near that is to the best."""
