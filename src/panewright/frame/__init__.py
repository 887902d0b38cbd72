"""Aluminium rails: exact section properties, strength, weight."""
