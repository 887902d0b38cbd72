"""The current of a capacitor's sweep that bears none: I = C dV/dt, by the voltage that grew.

A difference of two noisy voltages is no slope. So a straight line is laid through some rows in a row, as many
as the scatter of the voltage asks for: the slope of n rows at equal steps dt is unsure by
sigma sqrt(12 / (n^3 - n)) / dt (least squares, derived). Windows do not overlap, so that points err each by
itself; each gives its middle row a current. The scatter is told by the third differences, which a curve as
smooth as a panel's hardly has: sigma sqrt(20) for white noise (binomial, derived), by their median over
0.6745.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Column = NDArray[np.float64]

_WANTED = 0.01  #: of the largest current that a point may scatter; common practice
_LEAST, _FEWEST_POINTS = 3, 24
_MAD = 0.6745  #: of a bell: half of all values lie within it


def current_by_charge(volts: Column, time_s: Column, capacity_f: float) -> Column:
    """The current at the middle row of every window, nan at its other rows. [A]

    >>> grown = 20 * (1 - np.exp(-np.linspace(0, 3, 61) / 1.0))
    >>> found = current_by_charge(grown, np.linspace(0, 3, 61), 0.1)
    >>> int(np.isfinite(found).sum()), round(float(found[1]), 3), round(float(2 * np.exp(-0.05)), 3)
    (20, 1.903, 1.902)
    """
    current = np.full(volts.size, np.nan)
    there = np.flatnonzero(np.isfinite(volts) & np.isfinite(time_s))
    rows = rows_of_a_point(volts[there], time_s[there])
    for first in range(0, there.size - rows + 1, rows):
        window = there[first : first + rows]
        current[window[rows // 2]] = capacity_f * _slope(time_s[window], volts[window])
    return current


def rows_of_a_point(volts: Column, time_s: Column) -> int:
    """How many rows, an odd number, make one point: the fewest that keep its scatter small."""
    most = max((volts.size // _FEWEST_POINTS - 1) | 1, _LEAST)
    if volts.size < _LEAST + 2:
        return _LEAST
    sigma = float(np.median(np.abs(np.diff(volts, 3)))) / (_MAD * np.sqrt(20.0))
    step_s = float(np.median(np.diff(time_s)))
    for rows in range(_LEAST, most, 2):
        steepest = float(np.max(np.abs(_slopes(time_s, volts, rows))))
        if step_s > 0 and sigma * np.sqrt(12 / (rows**3 - rows)) / step_s <= _WANTED * steepest:
            return rows
    return most


def _slopes(time_s: Column, volts: Column, rows: int) -> Column:
    """From end to end of each window: near enough to say which is the steepest."""
    run = time_s[rows - 1 :] - time_s[: 1 - rows]
    return np.divide(volts[rows - 1 :] - volts[: 1 - rows], run, where=run > 0, out=np.zeros(run.size))


def _slope(time_s: Column, volts: Column) -> float:
    """Of the line of least squares; nan where all rows are of one time."""
    off = time_s - time_s.mean()
    spread = float(off @ off)
    return float(off @ volts) / spread if spread > 0 else float("nan")
