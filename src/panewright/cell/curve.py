"""The current-voltage curve of a cell, forward, dark, lit and in reverse.

Everything is one equation in the junction voltage Vd. With D(Vd) for what the junction swallows,

    D(Vd) = I0 (exp(Vd / nVth) - 1) + Vd / Rsh + G Vd (1 - Vd / Vbr)^-m,     I = IL - D,   V = Vd - I Rs,

a given current asks for D(Vd) = IL - I and a given voltage for Vd + Rs D(Vd) = V + Rs IL. D rises from
zero with Vd, so the right-hand side tells the sign of Vd, and with it a bracket that always holds:
forward, the exponential alone and the straight parts alone each bound Vd from above; in reverse, the
straight parts and the breakdown voltage do. A bracketed Newton then cannot fail.

Breakdown ends the law at Vbr: with Rs = 0 no current is defined at or below Vbr, and asking is an error.
Without any reverse path (no shunt, G = 0) a cell passes no more than IL + I0: beyond, V is minus infinity.

[B] J. W. Bishop, Computer simulation of the effects of electrical mismatches in photovoltaic cell
    interconnection circuits, Solar Cells 25, 1988, p. 73.
"""

from __future__ import annotations

from typing import overload

import numpy as np
from numpy.typing import ArrayLike

from panewright.cell.alone import forward_alone
from panewright.cell.diode import Diode, top_v
from panewright.cell.diodes import Diodes
from panewright.cell.root import Array, root

Cells = Diode | Diodes  #: one cell, or many side by side along the last axis


def swallowed_a(cells: Cells, junction_v: ArrayLike) -> tuple[Array, Array]:
    """Current D the junction swallows, and its slope. [A, S]"""
    vd = np.asarray(junction_v, dtype=float)
    growth, shunt_siemens = np.expm1(vd / cells.ideality_v), 1 / np.asarray(cells.shunt_ohm)
    current = cells.saturation_a * growth + vd * shunt_siemens
    slope = cells.saturation_a / cells.ideality_v * (growth + 1) + shunt_siemens
    breaks = np.asarray(cells.breakdown_siemens) > 0
    if np.any(breaks):
        top = top_v(cells.breakdown_v, cells.breakdown_exponent)
        held = np.minimum(vd, top)
        left = np.where(breaks, 1 - held / cells.breakdown_v, 1.0)  # the other cells may pass Vbr
        breakdown = cells.breakdown_siemens * left ** -np.asarray(cells.breakdown_exponent)
        current = current + held * breakdown
        rising = breakdown * (1 + (cells.breakdown_exponent - 1) * (1 - left)) / left
        slope = slope + np.where(vd < top, rising, 0.0)
    return current, slope


@overload
def current_a(cells: Diode, voltage_v: float) -> float: ...
@overload
def current_a(cells: Cells, voltage_v: Array) -> Array: ...
def current_a(cells: Cells, voltage_v: ArrayLike) -> float | Array:
    """Current at a terminal voltage. [A]

    >>> cell = Diode(8.5679853, 3.498345e-9, 0.02877568862, 0.00410914, 20.5457)
    >>> round(current_a(cell, 0.5065568378), 8)
    8.05364355
    """
    v = np.asarray(voltage_v, dtype=float)
    _refuse_past_breakdown(cells, v)
    rs = np.asarray(cells.series_ohm)
    with np.errstate(all="ignore"):
        vd = junction_v(cells, 1.0, rs, v + rs * cells.light_a)
        swallowed, slope = swallowed_a(cells, vd)
        # two ways to the same current; the one that magnifies the last digit of Vd less
        current = np.where(slope * rs > 1, (vd - v) / rs, cells.light_a - swallowed)
    return _as_asked(cells, voltage_v, current)


@overload
def voltage_v(cells: Diode, current_a: float) -> float: ...
@overload
def voltage_v(cells: Cells, current_a: Array) -> Array: ...
def voltage_v(cells: Cells, current_a: ArrayLike) -> float | Array:
    """Terminal voltage at a current; minus infinity where no voltage drives that current. [V]

    >>> cell = Diode(8.5679853, 3.498345e-9, 0.02877568862, 0.00410914, 20.5457)
    >>> round(voltage_v(cell, 0.0), 9), voltage_v(Diode(5.0, 1e-9, 0.027, 0.0, float("inf")), 6.0)
    (0.622, -inf)
    """
    voltage, _ = voltage_and_ohm(cells, np.asarray(current_a, dtype=float))
    return _as_asked(cells, current_a, voltage)


def voltage_and_ohm(cells: Cells, current: Array) -> tuple[Array, Array]:
    """Terminal voltage at a current, and -dV/dI there. [V, ohm]"""
    with np.errstate(all="ignore"):
        vd = junction_v(cells, 0.0, 1.0, cells.light_a - current)
        _, slope = swallowed_a(cells, vd)
        return vd - current * cells.series_ohm, 1 / slope + cells.series_ohm


def junction_v(cells: Cells, weight: float, ohm: ArrayLike, right: ArrayLike) -> Array:
    """Junction voltage at which weight Vd + ohm D(Vd) equals `right`. [V]"""
    ohm, right = np.asarray(ohm, dtype=float), np.asarray(right, dtype=float)
    if isinstance(cells, Diode) and ohm.ndim == right.ndim == 0 and 0 < right < np.inf:
        return np.asarray(forward_alone(cells, weight, float(ohm), float(right)))

    def surplus(vd: Array) -> tuple[Array, Array]:
        current, slope = swallowed_a(cells, vd)
        return weight * vd + ohm * current - right, weight + ohm * slope

    with np.errstate(all="ignore"):
        forward = _forward_bound(cells, weight, ohm, np.maximum(right, 0.0))
        reverse, guess = _reverse_bound(cells, weight, ohm, np.minimum(right, 0.0))
        reachable = np.isfinite(reverse)
        low = np.where((right > 0) | ~reachable, 0.0, reverse)
        high = np.where(right > 0, forward * (1 + 1e-12), 0.0)  # room for the last digit
        start = np.where(right > 0, forward, np.where(reachable, guess, 0.0))
        return np.where(reachable, root(surplus, low, high, start), -np.inf)


def _forward_bound(cells: Cells, weight: float, ohm: Array, right: Array) -> Array:
    """At or above the junction voltage of a forward cell. [V]"""
    straight = weight + ohm / cells.shunt_ohm

    def diode_alone(share: Array) -> Array:
        return np.asarray(cells.ideality_v * np.log1p(np.maximum(share, 0) / (ohm * cells.saturation_a)))

    above = np.fmin(diode_alone(right), right / straight)  # either path alone would need no more
    below = np.fmin(diode_alone(right - straight * above), above)
    return np.fmin(above, diode_alone(right - straight * below))


def _reverse_bound(cells: Cells, weight: float, ohm: Array, right: Array) -> tuple[Array, Array]:
    """At or below the junction voltage of a reversed cell, and a guess; minus infinity for never. [V, V]"""
    g, end = np.asarray(cells.breakdown_siemens), -np.asarray(cells.breakdown_v)
    need = -right
    straight = weight + ohm / cells.shunt_ohm + ohm * g
    alone = -cells.ideality_v * np.log1p(-need / (ohm * cells.saturation_a))  # no path but the diode's own
    bound = np.where(straight > 0, need / straight, np.where(np.isnan(alone), np.inf, alone)) * (1 + 1e-12)
    rest = need - (weight + ohm / cells.shunt_ohm) * end  # what breakdown alone must take, near its voltage
    rest = np.where(rest > 0, rest, need)
    left = (ohm * g * end / (2 * rest)) ** (1 / np.asarray(cells.breakdown_exponent))
    breaking = (g > 0) & (ohm > 0)
    guess = np.where(breaking, np.fmin(bound, end * (1 - np.minimum(left, 0.5))), bound)
    return -np.where(breaking, np.fmin(bound, end * (1 - 1e-15)), bound), -guess


def _refuse_past_breakdown(cells: Cells, v: Array) -> None:
    past = (np.asarray(cells.series_ohm) == 0) & (np.asarray(cells.breakdown_siemens) > 0)
    past = past & (v <= np.asarray(cells.breakdown_v))
    if np.any(past):
        end = np.max(cells.breakdown_v)
        raise ValueError(f"asked for {np.min(v):g} V; without series resistance the law ends at {end:g} V")


def _as_asked(cells: Cells, asked: ArrayLike, answer: Array) -> float | Array:
    return float(answer) if isinstance(cells, Diode) and np.ndim(asked) == 0 else answer
