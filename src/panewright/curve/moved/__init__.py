"""A measured curve brought to another light and heat, by the procedures of IEC 60891."""
