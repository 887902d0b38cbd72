"""Walls that buckle and rails that tip over."""
