"""Which way round a curve was written.

In a generator's signs the current of any cell, lit or dark, falls as the voltage
rises, and beyond open circuit it is negative. So if the current rises with voltage, its sign is turned. If
the place of no current lies at a negative voltage, or the current shrinks as the voltage goes below zero,
the voltage leads were swapped. Where the current hardly changes, the curve is the flat part of a lit one,
and its sign is positive. A dark cell only takes power, which tells at once.
"""

from __future__ import annotations

from typing import Literal

import numpy as np

from panewright.cell.root import Array

Signs = Literal["find", "generator", "load"]

_FLAT = 0.05  # change of current, as a share, below which the slope's sign is no witness


def generator_signs(v: Array, i: Array, asked: Signs, dark: bool) -> tuple[float, float]:
    """Factors of voltage and current that make them a generator's."""
    if asked != "find":
        return 1.0, -1.0 if asked == "load" else 1.0
    if dark:  # whatever the voltage, a dark cell only takes power
        return 1.0, -1.0 if float(np.sum(v * i)) > 0 else 1.0
    turn_i = _current_sign(v, i)
    turn_v = -1.0 if _leads_swapped(v, turn_i * i) else 1.0
    return (turn_v, turn_i) if turn_v > 0 else (turn_v, _current_sign(-v, i))


def _current_sign(v: Array, i: Array) -> float:
    """1 if the current falls as voltage rises, as a generator's does."""
    third = max(v.size // 3, 1)
    order = np.argsort(v)
    low, middle, high = (float(np.median(i[part])) for part in (order[:third], order, order[-third:]))
    if abs(high - low) < _FLAT * max(abs(low), abs(high)):
        return -1.0 if middle < 0 else 1.0
    return -1.0 if high > low else 1.0


def _leads_swapped(v: Array, i: Array) -> bool:
    """Whether the power-giving part lies at negative voltage."""
    below = v < 0
    if not np.any(below):
        return False
    given, taken = _power(v, i), _power(-v, -i)
    order = np.argsort(v)
    crossing = float(np.interp(0.0, -i[order], v[order])) if i.min() < 0 < i.max() else 0.0
    short = float(np.interp(0.0, v[order], np.abs(i[order])))
    shrinks = not np.any(v > 0) and np.abs(i[below]).min() < 0.9 * short
    noise = 0.02 * float(np.ptp(v))
    return bool(shrinks or (crossing < -noise and taken > given))


def _power(v: Array, i: Array) -> float:
    """The greatest power given, counted where voltage is positive."""
    return float(np.max(np.where(v > 0, v * i, 0.0)))
