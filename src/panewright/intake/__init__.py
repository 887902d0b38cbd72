"""Bytes as people have them become words and numbers."""
