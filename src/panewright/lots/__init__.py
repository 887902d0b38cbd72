"""Cells bought in lots: what they are, how many to buy, which goes where."""
