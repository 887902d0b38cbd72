"""Panes: how they bend, when they break, what a rule book lets them bear."""
