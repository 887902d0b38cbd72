"""A panel's curve as a walk from one end to the other, and the places where it has been looked at.

A panel of like strings is walked by the current I of one string, at which its voltage V follows without a
search; a panel of unlike strings by the bus voltage U. With r = -dV/dI of the string, Y = -dI/dU of all
strings together and R the leads', the power climbs by

    dP/dI = V - I r  (of one string),          dP/dU = I - Y (U - 2 R I).
"""

from __future__ import annotations

from math import inf
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from panewright.circuit.solver.bus import bus_at, bus_v
from panewright.circuit.solver.hand import Hand
from panewright.circuit.solver.sheet import Cells, Column, Sheet, Table
from panewright.circuit.solver.string import string_at

_POINTS, _POINTS_A_PART = 600, 4  # of one walk at most; a dozen are the rule
EDGE = -1  #: stands for beyond the brightest cell's current, where no power is made
START = -2  #: stands for no current, where none is made either
_BELOW = 0.94  # of a light current: a hump most often stands about there
_APART = 0.004  # of the current: knees nearer than this count as one
_EVEN = 24  # bus voltages to begin with


class Pool(NamedTuple):
    """Points of a walk: columns by point, then tables by point and part."""

    at: Column  #: current of a string, or bus voltage
    volt: Column  #: at the terminals
    current: Column
    climb: Column  #: slope of the power by `at`
    fall: Column  #: slope of the climb
    ohm: Column  #: r of the one string
    bend: Column
    junction_v: Table
    junction_ohm: Table
    curved: Table
    branch_a: Table
    string_a: Table
    low: NDArray[np.int64]  #: stack of pieces: their left points
    high: NDArray[np.int64]
    order: NDArray[np.int64]  #: points in the order of the walk


def room(cells: int, parts: int, strings: int) -> Pool:
    """Room for all points of one walk."""
    points = _POINTS + _POINTS_A_PART * parts
    columns = (np.zeros(points) for _ in range(7))
    tables = (np.zeros((points, cells)) for _ in range(3))
    stack = (np.zeros(points, dtype=np.int64) for _ in range(3))
    by_part = np.zeros((points, parts)), np.zeros((points, strings))
    return Pool._make((*columns, *tables, *by_part, *stack))


def stand(sheet: Sheet, cells: Cells, at: float, i: int, hand: Hand, pool: Pool) -> None:
    """Look at one place of the walk and keep it as point i."""
    at = float(at)  # no number of an array's own kind: they are slow, and warn
    pool.at[i] = at
    if len(sheet.alike) == 1:
        volt, ohm, bend = string_at(sheet, cells, 0, at, hand.guess_a, True, hand.work)
        pool.volt[i], pool.current[i], pool.ohm[i], pool.bend[i] = volt, sheet.alike[0] * at, ohm, bend
        pool.string_a[i][0] = at
        closed = volt == -inf or ohm == inf
        pool.climb[i] = -inf if closed else sheet.alike[0] * (volt - at * ohm)
        pool.fall[i] = 0.0 if closed else -sheet.alike[0] * (2.0 * ohm + at * bend)
    else:
        total, siemens, bend = bus_at(sheet, cells, at, True, hand)
        lead = sheet.lead_ohm
        volt = at - lead * total
        lift = volt - lead * total
        pool.volt[i], pool.current[i], pool.climb[i] = volt, total, total - siemens * lift
        pool.fall[i] = -siemens - bend * lift - siemens * (1.0 + 2.0 * lead * siemens)
        for s in range(len(sheet.alike)):
            pool.string_a[i][s] = hand.near_a[s]
    _keep(hand.work.junction_v, pool.junction_v[i])
    _keep(hand.work.junction_ohm, pool.junction_ohm[i])
    _keep(hand.work.bend, pool.curved[i])
    _keep(hand.work.branch_a, pool.branch_a[i])


def _keep(now: Column, kept: Column) -> None:
    for c in range(len(kept)):
        kept[c] = now[c]


def recall(i: int, j: int, at: float, hand: Hand, pool: Pool) -> None:
    """Guess at what lies between two points from how they stood."""
    i, j = j if i == START else i, i if j == EDGE else j
    share = 0.0 if pool.at[j] == pool.at[i] else (at - pool.at[i]) / (pool.at[j] - pool.at[i])
    one, other, guess = pool.branch_a[i], pool.branch_a[j], hand.guess_a
    for k in range(len(one)):
        guess[k] = max(float(one[k] + share * (other[k] - one[k])), 0.0)
    one, other, near = pool.string_a[i], pool.string_a[j], hand.near_a
    for s in range(len(one)):
        near[s] = float(one[s] + share * (other[s] - one[s]))


def first_places(sheet: Sheet, cells: Cells, hand: Hand, pool: Pool) -> int:
    """Where a walk is looked at first, in rising order, written to `pool.at`; how many places."""
    if len(sheet.alike) > 1:
        open_v = max(bus_v(sheet, cells, 0.0, True, hand), 0.0)
        for k in range(_EVEN + 1):
            pool.at[k] = open_v * k / _EVEN
        return _EVEN + 1
    n = 0
    light, sign = cells.light, cells.sign
    for k in range(len(sheet.kind)):
        dim = inf
        for c in range(sheet.first_cell[k], sheet.first_cell[k + 1]):
            if sign[c] > 0:
                dim = min(dim, light[c])
        if dim < inf:
            pool.at[n], pool.at[n + 1] = _BELOW * dim, dim
            n += 2
    if n == 0:
        pool.at[0] = 0.0
        return 1
    _sort(pool.at, n)
    apart, kept = _APART * pool.at[n - 1], 1
    for k in range(1, n):
        if pool.at[k] > pool.at[kept - 1] + apart:
            pool.at[kept] = pool.at[k]
            kept += 1
    return kept


def _sort(column: Column, n: int) -> None:
    """Put a few numbers in rising order, in their place."""
    for i in range(1, n):
        each, k = column[i], i
        while k > 0 and column[k - 1] > each:
            column[k] = column[k - 1]
            k -= 1
        column[k] = each


def begin(sheet: Sheet, cells: Cells, hand: Hand, pool: Pool) -> int:
    """Look at the first places of a walk; how many points."""
    n = first_places(sheet, cells, hand, pool)
    for i in range(n):
        at = pool.at[i]
        if i > 0:
            recall(i - 1, i - 1, at, hand, pool)
            for k in range(len(sheet.kind)):  # a diode that conducts takes all of a change
                if hand.guess_a[k] > 1e-3 * abs(at) and len(sheet.alike) == 1:
                    hand.guess_a[k] += at - pool.at[i - 1]
        stand(sheet, cells, at, i, hand, pool)
    return n
