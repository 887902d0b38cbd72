"""Readings stuck at the end of a meter's range.

A reading is stuck where four or more neighbours show exactly the same extreme current although the slope
beside them would have carried the current on by several of the meter's own steps. A flat top is no such
thing: there the slope beside it has died away too. So are readings that run steeply into a level.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from panewright.cell.root import Array

Mask = NDArray[np.bool_]

_STUCK = 4  # neighbours with the same extreme figure
_CARRIED = 4.0  # of the meter's steps that the slope beside would have carried the reading on by
_CORNER = 0.05  # of the steepest slope: a level run beside this much is a corner


def meter_step(values: Array) -> float:
    """The least step a meter shows: the smallest difference between two readings."""
    gaps = np.diff(np.unique(values))
    gaps = gaps[gaps > 1e-9 * np.max(np.abs(values))]  # less is the rounding of a conversion
    return float(gaps.min()) if gaps.size else 0.0


def stuck_current(v: Array, i: Array) -> Mask:
    """Points at the greatest or least current that the slope beside them would have passed."""
    x, place = np.unique(v, return_inverse=True)
    y = np.bincount(place, weights=i) / np.bincount(place)
    stuck = np.zeros(v.size, dtype=bool)
    for end in (i.max(), i.min()):
        level = np.bincount(place, weights=i != end) == 0  # voltages at which nothing else was read
        at = np.flatnonzero(level)
        whole = at.size >= _STUCK and at[-1] - at[0] == at.size - 1 and at.size < x.size
        if whole and _would_go_on(x, y, int(at[0]), int(at[-1])):
            stuck |= i == end
    return stuck


def _would_go_on(x: Array, y: Array, first: int, last: int) -> bool:
    """Whether the slope beside a level run would have carried the reading on."""
    before, after = slice(first - 1, None, -1) if first else slice(0, 0), slice(last + 1, None)
    edges = ((x[first], x[before], y[before]), (x[last], x[after], y[after]))
    run = abs(x[last] - x[first])
    return any(_carried(edge, run, at, level) or _breaks_off(at, level) for edge, at, level in edges)


def _carried(edge: float, run: float, at: Array, level: Array) -> bool:
    """Whether the slope beside, dying away as fast as it does, still moves the reading by several steps."""
    if at.size < 3 or np.any(np.diff(at[:3]) == 0):
        return False
    near, far = np.diff(level[:3]) / np.diff(at[:3])
    if near * far <= 0:
        return False
    apart, first = abs(at[2] - at[0]) / 2, abs(at[1] - at[0])
    decay = max(float(np.log(far / near)) / apart, 1e-9 / apart)
    at_edge = abs(near) * np.exp(-decay * (abs(edge - at[0]) + 0.5 * first))
    gone = at_edge * -np.expm1(-decay * min(run, 2 * first)) / decay
    return bool(gone > _CARRIED * meter_step(level))


def _breaks_off(at: Array, level: Array) -> bool:
    """Whether the curve runs into the level steeply: nothing in a cell makes such a corner."""
    if at.size < 4 or np.unique(level).size < 4 or np.any(np.diff(at) == 0):
        return False
    slope = (level[2:] - level[:-2]) / (at[2:] - at[:-2])
    fine = _decimal(level) < 0.1 * abs(level[2] - level[0])
    steep = abs(slope[0]) > max(_CORNER * np.max(np.abs(slope)), 0.3 * abs(slope[:3][-1]))
    return bool(fine and steep)


def _decimal(values: Array) -> float:
    """The last decimal place that is used."""
    for place in range(9):
        if np.allclose(values, np.round(values, place), rtol=0, atol=10.0 ** -(place + 4)):
            return float(10.0**-place)
    return 0.0


def stuck_voltage(v: Array, i: Array) -> Mask:
    """Points at the greatest or least voltage whose currents differ widely."""
    stuck = np.zeros(v.size, dtype=bool)
    for end in (v.max(), v.min()):
        at = v == end
        if np.sum(at) >= _STUCK and np.ptp(i[at]) > 0.05 * np.ptp(i):
            stuck |= at
    return stuck
