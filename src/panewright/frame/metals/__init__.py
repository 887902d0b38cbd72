"""Aluminium, steel, stainless: stiffness, strength, and which may touch."""
