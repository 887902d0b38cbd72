"""Wind, snow, cold and heat of a place, as loads and temperatures."""
