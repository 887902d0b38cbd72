"""Deals made and bettered."""
