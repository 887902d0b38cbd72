"""Years of weather that are made, not measured: from twelve means, or under a clear sky."""
