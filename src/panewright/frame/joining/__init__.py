"""Screws, rivets, bolts, welds and the walls they go through."""
