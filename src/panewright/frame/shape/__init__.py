"""Sections of any shape: area, moments, torsion, shear centre."""
