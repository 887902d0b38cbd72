"""A substring in even light, from a table: junction voltages over light, heat and share of the light current.

At one share x = I / IL the sum of the cells' Vd grows almost straight with ln G and with heat, so two
straight ways between the rows of the table serve. Resistances are no part of it: they are taken off after.
"""

from __future__ import annotations

from math import log
from typing import NamedTuple

from panewright.cell.root import Array
from panewright.circuit.chords.law import Law, Whole
from panewright.circuit.chords.part import add_cell, beside, currents, light_a
from panewright.circuit.solver.sheet import Column, Table

LIGHT_STEPS, HEAT_STEPS = 10, 11
LEAST_W_M2, LIGHT_RATIO = 3.0, 2.0
COLDEST_C, HEAT_STEP_K = -40.0, 14.0
_FULL_SUN, _REFERENCE_C = 1000.0, 25.0
_APART = 1.5e-3  # of the light current: points nearer together tell nothing in even light
_MOST, _LEAST = 1.6, -1.0  # shares of the light current from which, and to which, a table goes


class Tables(NamedTuple):
    """Of every kind of substring: its row of shares, how many of them count, its table."""

    shares: Array  #: (kinds, shares)
    counts: Whole
    volts: Array  #: (kinds, states, shares) [V]
    kind: Whole  #: of each substring
    apart: Array  #: of each cell: the share of the dome it sees, less the mean of its substring
    steepest: Array  #: of each kind: the greatest rise of its table of slopes, 0 where there is none
    rises: Whole  #: of each kind: how many rises its table has, evenly apart
    slopes: Array  #: (kinds, states, shares): what slopes change [V]


def fill(law: Law, k: int, apart: Column, top: float, work: Table, shares: Column, table: Table) -> int:
    """Set the shares of one substring and its table, rows by light and then by heat; how many shares. [V]

    Shares lie close together under each cell's light, in even light and on the steepest slope (`sloped`).
    """
    lit, count = work[2], 0
    least = least_light_a(law, k, _FULL_SUN, _REFERENCE_C)
    scale = least / sloped_light_a(law, k, _FULL_SUN, top, _REFERENCE_C, apart)
    for c in range(law.first_cell[k], law.first_cell[k + 1]):
        lit[count] = law.light_a[c]
        count += 1
        if top > 0.0:
            lit[count] = law.light_a[c] * (1.0 + top * apart[c]) * scale
            count += 1
    brightest = lit[0]
    for c in range(count):
        brightest = max(brightest, lit[c])
    points = currents(lit, count, (_MOST * brightest, _LEAST * least), shares)
    points = _thinned(shares, points, _APART * least)
    for q in range(points):
        shares[q] /= least
    for g in range(LIGHT_STEPS):
        light = LEAST_W_M2 * LIGHT_RATIO**g
        for t in range(HEAT_STEPS):
            heat = COLDEST_C + HEAT_STEP_K * t
            now = least_light_a(law, k, light, heat)
            _row(law, k, (light, heat, now), work, shares, points, table[g * HEAT_STEPS + t])
    return points


def _thinned(amp: Column, count: int, apart_a: float) -> int:
    """Currents no nearer together than so much, but for the ends; how many. [A]"""
    kept = 1
    for q in range(1, count):
        if amp[kept - 1] - amp[q] >= apart_a or q == count - 1:
            amp[kept] = amp[q]
            kept += 1
    return kept


def _row(
    law: Law,
    k: int,
    state: tuple[float, float, float],
    work: Table,
    shares: Column,
    points: int,
    row: Column,
) -> None:
    light, heat, now = state
    amp, volt, series = work[3], work[4], own_ohm(law, k)
    for q in range(points):
        amp[q], volt[q] = shares[q] * now, 0.0
    range_a = (amp[0], amp[points - 1])
    for c in range(law.first_cell[k], law.first_cell[k + 1]):
        add_cell(law, c, light, heat, range_a, work, volt, amp, points)
    for q in range(points):
        row[q] = volt[q] + amp[q] * series


def least_light_a(law: Law, k: int, light_w_m2: float, cell_c: float) -> float:
    """Light current of the dimmest cell of a substring. [A]"""
    least = light_a(law, law.first_cell[k], light_w_m2, cell_c)
    for c in range(law.first_cell[k] + 1, law.first_cell[k + 1]):
        least = min(least, light_a(law, c, light_w_m2, cell_c))
    return least


def sloped_light_a(law: Law, k: int, light_w_m2: float, rise: float, cell_c: float, apart: Column) -> float:
    """The same on a slope (`sloped`): without a step where another cell becomes the dimmest. [A]

    What the dimmest gives in even light, times what the sum of the cells' minus 256th powers tells.
    """
    least, flat, steep = least_light_a(law, k, light_w_m2, cell_c), 0.0, 0.0
    for c in range(law.first_cell[k], law.first_cell[k + 1]):
        share = least / light_a(law, c, light_w_m2, cell_c)
        flat += to_the_256th(share)
        steep += to_the_256th(share / (1.0 + rise * apart[c]))
    return float(least * (flat / steep) ** (1.0 / 256.0))


def to_the_256th(share: float) -> float:
    """A number eight times squared."""
    for _ in range(8):
        share *= share
    return share


def own_ohm(law: Law, k: int) -> float:
    """Resistance inside the cells of a substring. [ohm]"""
    ohm = 0.0
    for c in range(law.first_cell[k], law.first_cell[k + 1]):
        ohm += law.series_ohm[c]
    return ohm


def even_points(
    law: Law,
    k: int,
    light_w_m2: float,
    cell_c: float,
    tables: Tables,
    work: Table,
    volt: Column,
    amp: Column,
) -> int:
    """Points of a substring in even light. [V, A]"""
    now = least_light_a(law, k, light_w_m2, cell_c)
    points = junction_points(law, k, light_w_m2, cell_c, now, tables, volt, amp)
    return beside(law, k, amp[0], volt, amp, points, work)


def junction_points(
    law: Law,
    k: int,
    light_w_m2: float,
    cell_c: float,
    now: float,
    tables: Tables,
    volt: Column,
    amp: Column,
) -> int:
    """Points of its cells and joints, by the light current of the dimmest. [V, A]"""
    kind = tables.kind[k]
    shares, points, table = tables.shares[kind], tables.counts[kind], tables.volts[kind]
    ohm = own_ohm(law, k) + law.joints_ohm[k] + law.joints_ohm_k[k] * (cell_c - _REFERENCE_C)
    g, a = place(log(light_w_m2 / LEAST_W_M2) / log(LIGHT_RATIO), LIGHT_STEPS)
    t, b = place((cell_c - COLDEST_C) / HEAT_STEP_K, HEAT_STEPS)
    cold, warm = table[g * HEAT_STEPS + t], table[g * HEAT_STEPS + t + 1]
    cold_up, warm_up = table[(g + 1) * HEAT_STEPS + t], table[(g + 1) * HEAT_STEPS + t + 1]
    for q in range(points):
        low = (1.0 - b) * cold[q] + b * warm[q]
        high = (1.0 - b) * cold_up[q] + b * warm_up[q]
        amp[q] = shares[q] * now
        volt[q] = (1.0 - a) * low + a * high - amp[q] * ohm
    return int(points)


def place(at: float, steps: int) -> tuple[int, float]:
    """The row below and the share of the way to the next; beyond the table the last way goes on."""
    row = min(max(int(at), 0), steps - 2)
    return row, at - row
