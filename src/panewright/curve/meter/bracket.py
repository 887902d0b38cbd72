"""Between which powers a panel's maximum lies, by its few points alone and no model.

In even light, with no cell shaded, a panel's current falls ever more steeply as the voltage rises: its
curve is concave. So between two neighbouring points it lies above their chord, and below the chords on
either side prolonged and below the current of the point before. The greatest power under each bound is a
bound on the maximum.

A point that lies below the chord of its neighbours breaks this: a shaded cell, a bypass diode at work, or
light that moved. It is told, and then there is no upper bound.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from panewright.cell.root import Array
from panewright.curve.meter.meter_points import MeterPoint

_WIDE = 2.0  # standard deviations
_SURE = 3.0  # standard deviations below a chord
_END = 0.1  # of the greatest voltage or current: a point nearer than this closes the curve
_FINE = 400


@dataclass(frozen=True, slots=True)
class PowerBounds:
    """The least and the most that the maximum can be, errors counted in at two standard deviations."""

    low_w: float
    high_w: float | None  #: None where the points do not close it, or break the rule that it hangs on
    said: tuple[str, ...]


def power_bounds(points: Sequence[MeterPoint]) -> PowerBounds:
    """Bounds on the greatest power of a panel in even light, from points by rising voltage.

    >>> at = [("Isc", 0, 4.6), ("3R3", 13.9, 4.2), ("4R7", 17.2, 3.66), ("8R2", 19.2, 2.34), ("Voc", 20.8, 0)]
    >>> bounds = power_bounds([MeterPoint(name, v, i, 0, 0, "") for name, v, i in at])
    >>> round(bounds.low_w, 1), round(bounds.high_w, 1)
    (63.0, 68.0)
    """
    if len(points) < 2:
        return PowerBounds(0.0, None, ("One point bounds no power.",))
    v, i = (np.array(each, float) for each in zip(*((p.voltage_v, p.current_a) for p in points), strict=True))
    low = max(_under(v, i) - _WIDE * _sigma(_under, points, v, i), 0.0)
    said = list(_below_chords(points))
    if v[0] > _END * v[-1] or i[-1] > _END * i[0]:
        said.append("Without Isc and Voc nothing bounds the power from above.")
    if said or np.any(np.diff(v) <= 0):
        return PowerBounds(low, None, tuple(said))
    return PowerBounds(low, _over(v, i) + _WIDE * _sigma(_over, points, v, i), ())


def _sigma(bound: Callable[[Array, Array], float], points: Sequence[MeterPoint], v: Array, i: Array) -> float:
    """Standard deviation of a bound: each figure off by its own, one after another."""
    middle, square = bound(v, i), 0.0
    for place, each in enumerate(points):
        step = np.zeros(len(v))
        step[place] = 1.0
        square += (bound(v + each.voltage_sigma_v * step, i) - middle) ** 2
        square += (bound(v, i + each.current_sigma_a * step) - middle) ** 2
    return math.sqrt(square)


def _under(v: Array, i: Array) -> float:
    """The greatest power on the chords. [W]"""
    at = np.linspace(0, 1, _FINE)
    return max(
        float(((v[k] + at * (v[k + 1] - v[k])) * (i[k] + at * (i[k + 1] - i[k]))).max())
        for k in range(len(v) - 1)
    )


def _over(v: Array, i: Array) -> float:
    """The greatest power that the gaps between the points leave room for. [W]"""
    return max(_gap(v, i, k) for k in range(len(v) - 1))


def _gap(v: Array, i: Array, k: int) -> float:
    at = np.linspace(v[k], v[k + 1], _FINE)
    most = np.full(_FINE, i[k])
    if k > 0:
        most = np.minimum(most, _line(v[k - 1 : k + 1], i[k - 1 : k + 1], at))
    if k + 2 < len(v):
        most = np.minimum(most, _line(v[k + 1 : k + 3], i[k + 1 : k + 3], at))
    return float((at * most).max())


def _line(v: Array, i: Array, at: Array) -> Array:
    if v[1] <= v[0]:
        return np.full(len(at), np.inf)
    return np.asarray(i[0] + (i[1] - i[0]) / (v[1] - v[0]) * (at - v[0]))


def _below_chords(points: Sequence[MeterPoint]) -> Iterator[str]:
    """A sentence for each point that lies below the chord of its neighbours, beyond the errors."""
    for (low, mid), (_, high) in pairwise(pairwise(points)):
        if high.voltage_v <= low.voltage_v:
            continue
        at = (mid.voltage_v - low.voltage_v) / (high.voltage_v - low.voltage_v)
        slope = (high.current_a - low.current_a) / (high.voltage_v - low.voltage_v)
        below = low.current_a + at * (high.current_a - low.current_a) - mid.current_a
        ends = math.hypot((1 - at) * low.current_sigma_a, at * high.current_sigma_a)
        sigma = math.hypot(mid.current_sigma_a, ends, slope * mid.voltage_sigma_v)
        if below > max(_SURE * sigma, 1e-9):
            yield (
                f"{mid.name} lies {below:.2g} A below the line from {low.name} to {high.name}: a shaded "
                "cell, a bypass diode at work, or light that moved. Nothing then bounds the power from above."
            )
