"""From a curve, or a few meter readings, to what is likely wrong with a panel, where, and how sure."""
