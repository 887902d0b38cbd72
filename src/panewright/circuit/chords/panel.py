"""A panel by chords: its substrings in series, its strings side by side, its leads."""

from __future__ import annotations

from math import log1p
from typing import NamedTuple

from panewright.circuit.chords.curve import abreast, in_series
from panewright.circuit.chords.even import Tables, even_points
from panewright.circuit.chords.law import Law
from panewright.circuit.chords.part import light_a, part_points
from panewright.circuit.chords.sloped import sloped_points
from panewright.circuit.solver.sheet import BYPASS, Column, Table

ROWS = 11  #: of room that a panel needs while it is reckoned
DARK_W_M2 = 1.0  #: with less light a panel gives nothing
_REFERENCE_C = 25.0
_MARGIN = 1.02
_BLOCKED = 0.999  # of a blocking diode's leak
_TO_NONE = (0.5, 0.2, 0.07, 0.02, 4e-3, 4e-4, 0.0)  # of the last current before none
_FAR_V = 1e3  # a blocking diode bears what it must


class Light(NamedTuple):
    """Light on a panel. [W/m2]"""

    cells: Column  #: of each cell; where all are alike the first is that of all
    even: bool
    means: Column  #: of each substring, the mean of its cells
    rises: Column  #: of each: how steep its slope is (`sloped`), below 0 where it is none


def panel_points(
    law: Law,
    p: int,
    light: Light,
    cell_c: float,
    most_a: float,
    tables: Tables,
    work: Table,
    volt: Column,
    amp: Column,
) -> int:
    """Points of panel `p`. [V, A]

    `most_a` is the greatest current that is asked of one of its strings. `tables` are those of its
    substrings. `work` has ROWS rows of ROOM. No points in the dark.
    """
    if brightest(law, p, light) < DARK_W_M2:
        return 0
    string_v, string_a, sum_v, sum_a = work[7], work[8], work[9], work[10]
    count = 0
    for s in range(law.first_string[p], law.first_string[p + 1]):
        points = _string(law, p, s, light, cell_c, most_a, tables, work)
        if count == 0:
            count = _kept(string_v, string_a, points, volt, amp)
        else:
            sums = abreast(volt, amp, count, string_v, string_a, points, sum_v, sum_a)
            count = _kept(sum_v, sum_a, sums, volt, amp)
    lead = law.lead_ohm[p] + law.lead_ohm_k[p] * (cell_c - _REFERENCE_C)
    for q in range(count):
        volt[q] -= lead * amp[q]
    return count


def _string(
    law: Law,
    p: int,
    s: int,
    light: Light,
    cell_c: float,
    most_a: float,
    tables: Tables,
    work: Table,
) -> int:
    """Points of a string of a panel, in rows 7 and 8."""
    part_v, part_a, sum_v, sum_a, string_v, string_a = work[5], work[6], work[9], work[10], work[7], work[8]
    count, first_cell, first_part = 0, cells_of(law, p)[0], law.first_part[law.first_string[p]]
    for k in range(law.first_part[s], law.first_part[s + 1]):
        if light.even:
            points = even_points(law, k, light.cells[0], cell_c, tables, work, part_v, part_a)
        elif light.rises[k - first_part] >= 0.0 and law.beside[k] == BYPASS:
            mean, rise = light.means[k - first_part], light.rises[k - first_part]
            points = sloped_points(law, k, mean, rise, cell_c, most_a, tables, work, part_v, part_a)
        else:
            own, range_a = law.first_cell[k] - first_cell, (most_a, -most_a)
            points = part_points(law, k, light.cells, own, cell_c, range_a, work, part_v, part_a)
        if count == 0:
            count = _kept(part_v, part_a, points, string_v, string_a)
        else:
            sums = in_series(string_v, string_a, count, part_v, part_a, points, sum_v, sum_a)
            count = _kept(sum_v, sum_a, sums, string_v, string_a)
    return _tail(law, s, count, string_v, string_a)


def _tail(law: Law, s: int, count: int, volt: Column, amp: Column) -> int:
    """A string behind its bus and its blocking diode; how many points."""
    ohm, leak, q = law.tail_ohm[s], law.blocking_a[s], 0
    while q < count and (leak <= 0.0 or amp[q] > 0.0):
        volt[q] -= _lost(law, s, amp[q], ohm)
        q += 1
    if q == 0 or q == count:
        return q
    last_a, last_v = amp[q - 1], volt[q - 1] + _lost(law, s, amp[q - 1], ohm)
    fall = (volt[q] - last_v) / (last_a - amp[q])
    for share in _TO_NONE:
        amp[q] = share * last_a if share > 0.0 else -_BLOCKED * leak
        volt[q] = last_v + fall * (last_a - amp[q]) - _lost(law, s, amp[q], ohm)
        q += 1
    amp[q], volt[q] = -leak, volt[q - 1] + _FAR_V
    return q + 1


def _lost(law: Law, s: int, current: float, ohm: float) -> float:
    """Voltage lost in a string's bus and its blocking diode. [V]"""
    leak = law.blocking_a[s]
    if leak <= 0.0:
        return ohm * current
    return float(ohm * current + law.blocking_v[s] * log1p(current / leak) + law.blocking_ohm[s] * current)


def _kept(from_v: Column, from_a: Column, count: int, volt: Column, amp: Column) -> int:
    """A curve written elsewhere."""
    for q in range(count):
        volt[q], amp[q] = from_v[q], from_a[q]
    return count


def brightest(law: Law, p: int, light: Light) -> float:
    """The brightest light on a panel's cells. [W/m2]"""
    first, end = cells_of(law, p)
    most = light.cells[0]
    if not light.even:
        for c in range(end - first):
            most = max(most, light.cells[c])
    return most


def brightest_a(law: Law, p: int, light: Light, cell_c: float) -> float:
    """The greatest light current of a panel's cells. [A]"""
    first, end = cells_of(law, p)
    most = 0.0
    for c in range(end - first):
        most = max(most, light_a(law, first + c, light.cells[0 if light.even else c], cell_c))
    return _MARGIN * most


def cells_of(law: Law, p: int) -> tuple[int, int]:
    """The first of a panel's cells, and the end of them."""
    first, end = law.first_string[p], law.first_string[p + 1]
    return law.first_cell[law.first_part[first]], law.first_cell[law.first_part[end]]
