"""A substring whose cells see unlike shares of the dome, from tables as in even light.

Where no shadow parts its cells, each gets the same straight light and ground, and its share s of the dome:

    light = A + D s = mean (1 + rise (s - mean s)),   rise = D / mean

So beside light and heat one figure more fixes a substring: its rise. Tables hold by how much the sum of the
junctions' voltages is off that of even light, at four to nine rises, closer where they are slight; between
four of them goes a cubic. At one share of the dimmest cells' current that difference is nearly straight in
heat, so few heats serve.
"""

from __future__ import annotations

import math
from math import log, sqrt

import numpy as np

from panewright.cell.root import Array
from panewright.circuit.chords.even import (
    COLDEST_C,
    HEAT_STEP_K,
    HEAT_STEPS,
    LEAST_W_M2,
    LIGHT_RATIO,
    LIGHT_STEPS,
    Tables,
    junction_points,
    own_ohm,
    place,
    sloped_light_a,
)
from panewright.circuit.chords.law import Law
from panewright.circuit.chords.part import add_cell, beside
from panewright.circuit.solver.sheet import Column, Table

SLOPES, _LEAST_SLOPES = 9, 4  #: rises of a table, at most and at least
_SLOPE = 0.025  # of the mean light: for so much one rise more
_COLD, _STEP, _HEATS = 1, 2, 4  # of the heats of even light: the first, every second, so many
_DIM = 2  # of the lights of even light: the first
_LIGHTS = LIGHT_STEPS - _DIM
LEAST_SLOPED_W_M2 = LEAST_W_M2 * LIGHT_RATIO**_DIM  #: in less light cells are asked one by one
SLOPE_ROWS = SLOPES * _LIGHTS * _HEATS
WIDEST = 0.3  #: of their mean light: cells further apart are no slope
_SLIGHT = 1e-9


def steepest(sees: Array) -> float:
    """Greatest rise of a substring whose cells see these shares of the dome, 0 where they see it alike.

    >>> round(steepest(np.array([0.9, 1.0, 0.95])), 4), steepest(np.ones(4))
    (1.0526, 0.0)
    """
    spread = float(np.ptp(sees))
    return min(1 / float(sees.mean()), WIDEST / spread) if spread > _SLIGHT else 0.0


def rises_of(sees: Array) -> int:
    """How many rises a table has: more where cells lie further apart.

    >>> rises_of(np.array([0.97, 1.0])), rises_of(np.array([0.78, 1.0])), rises_of(np.ones(3))
    (4, 9, 4)
    """
    steps = 1 + math.ceil(steepest(sees) * float(np.ptp(sees)) / _SLOPE)
    return min(max(steps, _LEAST_SLOPES), SLOPES)


def fill_slopes(
    law: Law,
    k: int,
    apart: Column,
    slopes: tuple[float, int],
    work: Table,
    shares: Column,
    points: int,
    even: Table,
    table: Table,
) -> None:
    """Set what slopes change of a substring's volts, rows by rise, light and heat; `even` from `fill`. [V]

    `apart` is of each cell, `slopes` the steepest and how many.
    """
    top, count = slopes
    for n in range(count):
        for g in range(_LIGHTS):
            for t in range(_HEATS):
                state = _COLD + _STEP * t
                light, heat = LEAST_W_M2 * LIGHT_RATIO ** (_DIM + g), COLDEST_C + HEAT_STEP_K * state
                row, flat = table[(n * _LIGHTS + g) * _HEATS + t], even[(_DIM + g) * HEAT_STEPS + state]
                _volts(law, k, light, top * ((n + 1) / count) ** 2, heat, apart, work, shares, points, row)
                for q in range(points):
                    row[q] -= flat[q]


def _volts(
    law: Law,
    k: int,
    light: float,
    rise: float,
    heat: float,
    apart: Column,
    work: Table,
    shares: Column,
    points: int,
    row: Column,
) -> None:
    """Volts of a substring's junctions at shares of its dimmest cells' current. [V]"""
    amp, now, series = work[3], sloped_light_a(law, k, light, rise, heat, apart), own_ohm(law, k)
    for q in range(points):
        amp[q], row[q] = shares[q] * now, 0.0
    range_a = (amp[0], amp[points - 1])
    for c in range(law.first_cell[k], law.first_cell[k + 1]):
        add_cell(law, c, light * (1.0 + rise * apart[c]), heat, range_a, work, row, amp, points)
    for q in range(points):
        row[q] += amp[q] * series


def sloped_points(
    law: Law,
    k: int,
    light: float,
    rise: float,
    heat: float,
    most_a: float,
    tables: Tables,
    work: Table,
    volt: Column,
    amp: Column,
) -> int:
    """Points of a substring on such a slope, which has a bypass diode. [V, A]"""
    now = sloped_light_a(law, k, light, rise, heat, tables.apart)
    points = junction_points(law, k, light, heat, now, tables, volt, amp)
    kind = tables.kind[k]
    if tables.steepest[kind] > 0.0:
        count = tables.rises[kind]
        _bend(
            tables.slopes[kind], count, sqrt(rise / tables.steepest[kind]) * count, light, heat, volt, points
        )
    return beside(law, k, max(amp[0], most_a), volt, amp, points, work)


def _bend(rows: Table, count: int, u: float, light: float, heat: float, volt: Column, points: int) -> None:
    """Add what a slope changes; `u` is the root of the rise, in steps of the table."""
    g, a = place(log(light / LEAST_W_M2) / log(LIGHT_RATIO) - _DIM, _LIGHTS)
    t, b = place(((heat - COLDEST_C) / HEAT_STEP_K - _COLD) / _STEP, _HEATS)
    first = min(max(int(u) - 1, 0), count - 3)
    for n in range(max(first, 1), first + 4):
        weight, at = _weight(u - first, n - first), ((n - 1) * _LIGHTS + g) * _HEATS + t
        cold, warm, cold_up, warm_up = rows[at], rows[at + 1], rows[at + _HEATS], rows[at + _HEATS + 1]
        for q in range(points):
            low = (1.0 - b) * cold[q] + b * warm[q]
            high = (1.0 - b) * cold_up[q] + b * warm_up[q]
            volt[q] += weight * ((1.0 - a) * low + a * high)


def _weight(u: float, n: int) -> float:
    """Of the one of four points at 0, 1, 2, 3 in the cubic through them."""
    weight = 1.0
    for m in range(4):
        if m != n:
            weight *= (u - m) / (n - m)
    return weight
