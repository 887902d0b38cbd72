"""Cells, ribbon, circuit and light of a design."""
