"""Loops over the points of branches, compiled: of `strung` and of the distances of `observer`.

A branch is told by rising currents and the falling voltage at each. Two are joined by walking along both at
once, so that nothing is sorted and nothing is looked up twice.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import numba
import numpy as np

Array = np.ndarray[Any, np.dtype[np.float64]]
Pair = tuple[Array, Array]


class Law(NamedTuple):
    """Figures of a cell as it stands in its light and heat."""

    light_a: float
    saturation_a: float
    ideality_v: float
    series_ohm: float
    shunt_siemens: float
    breakdown_siemens: float
    breakdown_v: float
    exponent: float


_loop = numba.njit(cache=True, error_model="numpy")


@_loop
def rising(amps: Array, volts: Array) -> Pair:
    """By current, voltages nowhere rising; quick for what rises or falls but for roundings."""
    count = amps.size
    step = -1 if amps[0] > amps[count - 1] else 1
    i, v = amps[::step].copy(), volts[::step].copy()
    for k in range(1, count):
        here, at, j = i[k], v[k], k
        while j > 0 and i[j - 1] > here:
            i[j], v[j] = i[j - 1], v[j - 1]
            j -= 1
        i[j], v[j] = here, at
    for k in range(1, count):
        v[k] = min(v[k], v[k - 1])
    return i, v


@_loop
def swallowing(far: Array, leaks: Array, near: tuple[float, float, float], of: Law) -> Pair:
    """A cell's branch by its junction's voltages: `far` with Bishop's factor at each, then by even steps.

    `near` is where they begin, where they end, and the step. [V]
    """
    start, top, step = near
    count = max(int(np.ceil((top - start) / step)), 1)
    amps, volts = np.empty(far.size + count), np.empty(far.size + count)
    for k in range(far.size + count):
        v = far[k] if k < far.size else start + step * (k - far.size)
        factor = leaks[k] if k < far.size else (1 - v / of.breakdown_v) ** -of.exponent
        junction = of.saturation_a * np.expm1(v / of.ideality_v)
        amps[k] = of.light_a - junction - v * (of.shunt_siemens + of.breakdown_siemens * factor)
        volts[k] = v - amps[k] * of.series_ohm
    return rising(amps, volts)


@_loop
def along(x: Array, at: Array, of: Array) -> Array:
    """Straight between points, `x` and `at` rising; beyond the ends what stands there."""
    found, j, last = np.empty(x.size), 0, at.size - 1
    for k in range(x.size):
        while j < last and at[j + 1] <= x[k]:
            j += 1
        if j == last or x[k] < at[0]:
            found[k] = of[j]
        else:
            found[k] = (of[j + 1] - of[j]) / (at[j + 1] - at[j]) * (x[k] - at[j]) + of[j]
    return found


@_loop
def joined(one: Array, other: Array) -> Array:
    """All numbers of two rising arrays, each once."""
    found, a, b, n = np.empty(one.size + other.size), 0, 0, 0
    while a < one.size or b < other.size:
        if b == other.size or (a < one.size and one[a] <= other[b]):
            here = one[a]
            a += 1
        else:
            here = other[b]
            b += 1
        if n == 0 or here > found[n - 1]:
            found[n] = here
            n += 1
    return found[:n].copy()


@_loop
def in_series(one: Pair, count: float, other: Pair, more: float) -> Pair:
    """So many of one branch and of another that carry one current."""
    amps = joined(one[0], other[0])
    return amps, count * along(amps, one[0], one[1]) + more * along(amps, other[0], other[1])


@_loop
def finer(cells: Pair, levels: Array) -> Pair:
    """With points at these falling voltages, which may lie within one step of the branch's own."""
    amps, volts = cells
    more = joined(amps, along(-levels, -volts, amps))
    return more, along(more, amps, volts)


@_loop
def passing(cells: Pair, diode: Pair, law: tuple[float, float]) -> Pair:
    """With what passes a diode beside; `diode` is currents, and the drop at each, `law` its I0 and nVth."""
    amps, volts = finer(cells, -diode[1])
    saturation, n = law
    leaks = saturation * np.expm1(-np.maximum(volts, 0.0) / n)
    return rising(amps + leaks + along(-volts, diode[1], diode[0]), volts)


@_loop
def between(branch: Pair, least: float, most: float) -> Pair:
    """Its points of currents between these two."""
    amps, _ = branch
    first, last = np.searchsorted(amps, least, side="right"), np.searchsorted(amps, most, side="left")
    return amps[first:last], branch[1][first:last]


@_loop
def met(branch: Pair, seen: Pair) -> tuple[Array, Array, Array, Array]:
    """Where lines of load through readings (V, A) meet a branch, and which way it runs there."""
    i, v = branch
    volts, amps = seen
    scale_v, scale_i = np.abs(volts).max(), np.abs(amps).max()
    found = np.empty((4, volts.size))
    for n in range(volts.size):
        angle = np.arctan2(amps[n] / scale_i, volts[n] / scale_v)
        low, high = 0, i.size
        while low < high:
            middle = (low + high) // 2
            if np.arctan2(i[middle] / scale_i, v[middle] / scale_v) < angle:
                low = middle + 1
            else:
                high = middle
        k = min(max(low, 1), i.size - 1)
        along_v, along_i = v[k] - v[k - 1], i[k] - i[k - 1]
        across = volts[n] * along_i - amps[n] * along_v
        across = across if np.abs(across) > 1e-300 else 1e-300
        part = min(max((amps[n] * v[k - 1] - volts[n] * i[k - 1]) / across, 0.0), 1.0)
        found[0, n], found[1, n] = v[k - 1] + part * along_v, i[k - 1] + part * along_i
        found[2, n], found[3, n] = along_v, along_i
    return found[0], found[1], found[2], found[3]


@_loop
def places(branch: Pair, seen: Pair, errors: Pair) -> tuple[Array, float]:
    """Distances of a sweep's readings, and the log of how dense places along the curve are there."""
    met_v, met_i, along_v, along_i = met(branch, seen)
    length = np.hypot(along_i * errors[0], along_v * errors[1]) + 1e-300
    off = (along_i * (seen[0] - met_v) - along_v * (seen[1] - met_i)) / length
    dense = np.log(np.maximum(np.abs(along_v), 1e-9) * errors[1] / length)
    return off, dense.sum()


@_loop
def at_loads(branch: Pair, seen: Pair, errors: Pair, loads_ohm: Array) -> Array:
    """Distances of a meter's: open its volts, shorted its amperes, at each load both."""
    i, v = branch
    off = np.empty(2 + 2 * loads_ohm.size)
    off[0] = (seen[0][0] - np.interp(0.0, i, v)) / errors[0][0]
    off[1] = (seen[1][1] - np.interp(0.0, -v, i)) / errors[1][1]
    for k in range(loads_ohm.size):
        ohm, n = loads_ohm[k], k + 2
        through = np.interp(0.0, i * ohm - v, i)
        off[2 * n - 2] = (seen[0][n] - through * ohm) / errors[0][n]
        off[2 * n - 1] = (seen[1][n] - through) / errors[1][n]
    return off
