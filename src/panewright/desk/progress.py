"""How far long work is, told to whoever waits for it. One process does one thing at a time."""

from __future__ import annotations

from collections.abc import Callable

_ears: list[Callable[[int], None]] = []


def heard_by(ear: Callable[[int], None]) -> None:
    """From now on this one is told, and no other."""
    _ears[:] = [ear]


def at(percent: int) -> None:
    """So much is done."""
    for ear in _ears:
        ear(percent)
