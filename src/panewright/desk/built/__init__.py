"""A serial as it was built: told, judged afresh, kept and shown."""
