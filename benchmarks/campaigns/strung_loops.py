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


SHADED, CRACKED, SHUNT, GONE, RESISTANCE, TURNED, SHORTED, BACKWARD, OPEN, DIMMED = range(10)  #: things wrong
Wrongs = tuple[Any, Array, Any]  #: of each its kind, its size and its row

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


class Strings(NamedTuple):
    """Rows of like cells with what lies beside each, as numbers."""

    rows: int
    each: int
    joint_ohm: float
    lead_ohm: float
    bypass: bool  #: whether a diode lies beside each row
    saturation_a: float  #: of that diode
    ideality_v: float
    shorted_ohm: float  #: of one that has failed short
    passed_a: Array  #: currents through it, rising
    drop_v: Array  #: and its drop at each


class Grid(NamedTuple):
    """Junction voltages at which a cell's branch is told."""

    far_v: Array  #: beyond the near ones, rising
    near_v: float  #: where the near ones begin, by long steps up to the knee
    long_v: float
    step_v: float  #: past the knee
    straight: float  #: share of the light at which the knee lies


@_loop
def cell_branch(of: Law, grid: Grid) -> Pair:
    """One cell's branch by its junction's voltages."""
    light = max(of.light_a, 1.0)
    top = of.ideality_v * np.log1p(2.6 * light / of.saturation_a)
    bend = of.ideality_v * np.log1p(grid.straight * light / of.saturation_a)
    # by whole steps, or slopes would feel it move
    knee = max(grid.long_v * np.floor(bend / grid.long_v), grid.near_v)
    longs = max(int(np.ceil((knee - grid.long_v / 2 - grid.near_v) / grid.long_v)), 0)
    far = np.empty(grid.far_v.size + longs)
    far[: grid.far_v.size] = grid.far_v
    for k in range(longs):
        far[grid.far_v.size + k] = grid.near_v + k * grid.long_v
    leaks = (1 - far / of.breakdown_v) ** -of.exponent
    return swallowing(far, leaks, (knee, top, grid.step_v), of)


@_loop
def hurt(sound: Law, kind: int, size: float) -> Law:
    """A cell that is shaded, leaks, or is cracked: what is left is a smaller cell."""
    left = 1 - size
    if kind == SHADED:
        light, other, shunt = sound.light_a * left, 1.0, sound.shunt_siemens
    elif kind == SHUNT:
        light, other, shunt = sound.light_a, 1.0, sound.shunt_siemens + 1 / size
    else:
        light, other, shunt = sound.light_a * left, left, sound.shunt_siemens * left
    return Law(
        light,
        sound.saturation_a * other,
        sound.ideality_v,
        sound.series_ohm / other,
        shunt,
        sound.breakdown_siemens * other,
        sound.breakdown_v,
        sound.exponent,
    )


@_loop
def row_branch(panel: Strings, sound: Law, cell: Pair, row: int, wrongs: Wrongs, grid: Grid) -> Pair:
    """Of one row with what lies beside it; `cell` is a sound cell's branch."""
    kinds, sizes, rows = wrongs
    ohm, left, turned = panel.joint_ohm * panel.each, panel.each, 0
    opened, shorted, backward = False, False, False
    for k in range(kinds.size):
        if rows[k] != row:
            continue
        if kinds[k] == GONE:
            ohm, left = ohm - panel.joint_ohm, left - 1
        elif kinds[k] == RESISTANCE:
            ohm += sizes[k]
        elif kinds[k] == TURNED:
            turned, left = turned + 1, left - 1
        elif kinds[k] in (SHADED, CRACKED, SHUNT):
            left -= 1
        opened = opened or kinds[k] == OPEN
        shorted = shorted or kinds[k] == SHORTED
        backward = backward or kinds[k] == BACKWARD
    amps, volts = cell[0], left * cell[1]
    for k in range(kinds.size):
        if rows[k] == row and kinds[k] in (SHADED, CRACKED, SHUNT):
            weak = cell_branch(hurt(sound, kinds[k], sizes[k]), grid)
            amps, volts = in_series((amps, volts), 1.0, weak, 1.0)
    if turned:
        back = (-cell[0][::-1].copy(), -cell[1][::-1].copy())
        amps, volts = in_series((amps, volts), 1.0, back, float(turned))
    return beside(panel, (amps, volts - amps * ohm), opened, shorted, backward)


@_loop
def beside(panel: Strings, cells: Pair, opened: bool, shorted: bool, backward: bool) -> Pair:
    """With the diode: its current at the cells' own voltage is added to theirs."""
    if opened:
        return alone(panel, shorted)
    if not panel.bypass:
        return cells
    amps, volts = cells
    if shorted:
        return rising(amps - volts / panel.shorted_ohm, volts)
    if backward:
        fine, at = finer(cells, panel.drop_v[::-1].copy())
        return rising(fine - along(at[::-1].copy(), panel.drop_v, panel.passed_a)[::-1].copy(), at)
    return passing(cells, (panel.passed_a, panel.drop_v), (panel.saturation_a, panel.ideality_v))


@_loop
def alone(panel: Strings, shorted: bool) -> Pair:
    """Of a row whose cells are cut off: the diode alone; backward nothing flows."""
    if not panel.bypass:
        return np.zeros(2), np.zeros(2)
    if shorted:
        return np.array([-1e3, 1e3]), np.array([1e3, -1e3]) * panel.shorted_ohm
    amps, volts = np.empty(panel.passed_a.size + 1), np.empty(panel.passed_a.size + 1)
    amps[0], volts[0] = -1e-6, 1e3
    amps[1:], volts[1:] = panel.passed_a, -panel.drop_v
    return amps, volts


@_loop
def panel_branch(panel: Strings, sound: Law, wrongs: Wrongs, grid: Grid) -> Pair:
    """Of the whole panel, from a little past open to past short circuit."""
    cell, none = cell_branch(sound, grid), 0
    hurt_rows = np.zeros(panel.rows, dtype=np.bool_)
    for k in range(wrongs[2].size):
        if wrongs[0][k] != DIMMED:
            hurt_rows[wrongs[2][k]] = True
    none = panel.rows - np.count_nonzero(hurt_rows)
    amps, volts = np.zeros(0), np.zeros(0)
    if none:
        amps, volts = row_branch(panel, sound, cell, -1, wrongs, grid)
        volts = none * volts
    for row in range(panel.rows):
        if hurt_rows[row]:
            own = row_branch(panel, sound, cell, row, wrongs, grid)
            if amps.size:
                amps, volts = in_series((amps, volts), 1.0, own, 1.0)
            else:
                amps, volts = own
    amps, volts = between((amps, volts), -0.05 * sound.light_a, 1.3 * sound.light_a + 0.1)
    return amps, volts - amps * panel.lead_ohm


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
