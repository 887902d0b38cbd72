"""The shop's records: what was asked, designed, built, measured, sold. Nothing in them is overwritten."""
