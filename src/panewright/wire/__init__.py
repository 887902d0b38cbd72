"""Conductors: resistance, ampacity, voltage drop, and which section a run gets."""
