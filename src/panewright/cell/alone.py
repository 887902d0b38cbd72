"""A lit cell asked for one figure: the law of `curve` in plain numbers, where an array of one costs tenfold.

The bounds are those of `curve` for a forward junction, the bracketed Newton is that of `root`.
"""

from __future__ import annotations

from collections.abc import Callable
from math import exp, expm1, inf, isnan, log1p

from panewright.cell.diode import Diode

_ROUNDS, _PATIENCE = 200, 12
_CLOSE, _DUST = 1e-12, 1e-15
_MOST = 709.0  # of an exponent: beyond, there are no numbers

Rising = Callable[[float], tuple[float, float]]


def swallowed_alone(cell: Diode, vd: float) -> tuple[float, float]:
    """Current D a forward junction swallows, and its slope. [A, S]"""
    share, siemens = vd / cell.ideality_v, 1 / cell.shunt_ohm
    growth = expm1(share) if share < _MOST else inf
    current = cell.saturation_a * growth + vd * siemens
    slope = cell.saturation_a / cell.ideality_v * (growth + 1) + siemens
    g, exponent = cell.breakdown_siemens, cell.breakdown_exponent
    if g == 0:
        return current, slope
    top = -cell.breakdown_v / (exponent - 1) if exponent > 1 else inf
    held = min(vd, top)
    left = 1 - held / cell.breakdown_v
    breakdown = g * left**-exponent
    if vd < top:
        slope += breakdown * (1 + (exponent - 1) * (1 - left)) / left
    return current + held * breakdown, slope


def forward_alone(cell: Diode, weight: float, ohm: float, right: float) -> float:
    """Junction voltage at which weight Vd + ohm D(Vd) equals `right`, which is above zero. [V]"""

    def surplus(vd: float) -> tuple[float, float]:
        current, slope = swallowed_alone(cell, vd)
        return weight * vd + ohm * current - right, weight + ohm * slope

    bound = _bound(cell, weight, ohm, right)
    return root_alone(surplus, 0.0, bound * (1 + 1e-12), bound)


def best_alone(cell: Diode, isc_a: float, voc_v: float) -> float:
    """Junction voltage at maximum power; see `key_points`. [V]"""
    n, rs = cell.ideality_v, cell.series_ohm

    def surplus(vd: float) -> tuple[float, float]:
        swallowed, g = swallowed_alone(cell, vd)
        bend = cell.saturation_a / n**2 * exp(vd / n)  # breakdown's own bend is nothing here
        current = cell.light_a - swallowed
        return vd - current * (1 / g + 2 * rs), 2 + 2 * rs * g + current * bend / g**2

    start = voc_v - n * log1p(voc_v / n)  # exact for a cell without resistances
    return root_alone(surplus, isc_a * rs, voc_v, start)


def root_alone(rising: Rising, low: float, high: float, start: float) -> float:
    """Where a rising function is zero; `low` and `high` must lie on its two sides."""
    x, dust = min(max(start, low), high), _DUST * max(abs(low), abs(high))
    for turn in range(_ROUNDS):
        value, slope = rising(x)
        if value == 0:
            break
        low, high = (x, high) if value < 0 else (low, x)
        new, middle = x - value / slope, 0.5 * (low + high)
        small = abs(new - x) <= _CLOSE * abs(x) + dust
        newton = low <= new <= high and (small or turn < _PATIENCE or turn % 2 == 0)
        x = new if newton else middle
        if (newton and small) or middle <= low or middle >= high or isnan(value):
            break
    return x


def _bound(cell: Diode, weight: float, ohm: float, right: float) -> float:
    """At or above the junction voltage: either path alone would need no more. [V]"""
    straight, bears = weight + ohm / cell.shunt_ohm, ohm * cell.saturation_a

    def diode_alone(share: float) -> float:
        return cell.ideality_v * log1p(max(share, 0.0) / bears) if bears > 0 else inf

    above = min(diode_alone(right), right / straight if straight > 0 else inf)
    below = min(diode_alone(right - straight * above), above)
    return min(above, diode_alone(right - straight * below))
