"""A family of sizes as a price list: every size is the same order, designed and priced as any other."""
