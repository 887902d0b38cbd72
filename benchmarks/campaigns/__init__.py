"""Long campaigns: many random cases, each held against another way to the same answer."""
