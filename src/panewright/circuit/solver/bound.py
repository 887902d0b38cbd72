"""What a piece of a walk can hold at most, from how a panel stands at its two ends.

Between two points every junction voltage lies between its two values there, and the slope g of what a
junction swallows is convex in it (see `junction`): it is nowhere above its greater end, and nowhere below the
tangents at both. So two points bound r and Y on the whole piece between, and with them the climb of the
power: not an estimate, a bound. A piece can then hold no more power than

- its greater current times its greater voltage, since voltage falls with current;
- the lesser of two straight lines: from its left end with the most climb it can have anywhere, from its
  right end with the least.
"""

from __future__ import annotations

from math import inf

from panewright.circuit.solver.facts import brightest_a
from panewright.circuit.solver.sheet import BRIDGE, BYPASS, NONE, Cells, Sheet
from panewright.circuit.solver.walk import EDGE, START, Pool

NARROW = 1e-12  #: of the walk: pieces shorter than this are not cut


def end_of(sheet: Sheet, cells: Cells, j: int, pool: Pool) -> float:
    """Right end of a piece."""
    if j != EDGE:
        return pool.at[j]
    upright, _, cap = brightest_a(sheet, cells, 0)
    return min(upright, cap)


def bound_w(sheet: Sheet, cells: Cells, i: int, j: int, pool: Pool) -> float:
    """What no point of a piece exceeds, 0 where its climb keeps one sign. [W]"""
    if i == START:
        return _first_w(sheet, cells, j, pool)
    right = end_of(sheet, cells, j, pool)
    far = sheet.alike[0] * right if j == EDGE else pool.current[j]
    amps, volts = max(pool.current[i], far), max(pool.volt[i], -inf if j == EDGE else pool.volt[j])
    box = max(amps, 0.0) * max(volts, 0.0)
    if j == EDGE or not box > 0:
        return box
    least, most = climbs(sheet, cells, i, j, pool)
    if most <= 0 or least >= 0:
        return 0.0
    width, left_w = right - pool.at[i], pool.volt[i] * pool.current[i]
    if most == inf or left_w == -inf:
        return box
    meet = width
    if least > -inf and pool.volt[j] > -inf:
        meet = (pool.volt[j] * pool.current[j] - left_w - width * least) / (most - least)
    return min(box, left_w + most * min(meet, width))


def _first_w(sheet: Sheet, cells: Cells, j: int, pool: Pool) -> float:
    """What no point before the first exceeds. [W]

    Toward no current an upright junction rises: where g rises with it, r is nowhere above that of the point,
    and the climb nowhere below; unless a diode in the string, or a bypass diode that conducts, grows flatter.
    """
    if pool.at[j] <= NARROW:
        return 0.0
    if sheet.blocking[0] == 1 or not pool.climb[j] > -inf:
        return inf
    for k in range(len(sheet.kind)):
        if sheet.kind[k] == BYPASS and pool.branch_a[j][k] > -0.999999 * sheet.beside_a[k]:
            return inf
    curved, sign = pool.curved[j], cells.sign
    for c in range(len(curved)):
        if not sign[c] * curved[c] >= 0:
            return inf
    falls = max(-pool.climb[j], 0.0)
    return pool.volt[j] * pool.current[j] + pool.at[j] * falls if falls > 0 else 0.0


def climbs(sheet: Sheet, cells: Cells, i: int, j: int, pool: Pool) -> tuple[float, float]:
    """Bounds of the climb on the piece between two points. [least, most]"""
    if len(sheet.alike) == 1:
        low, high = _ohms(sheet, cells, 0, i, j, pool)
        least = -inf if high == inf or pool.volt[j] == -inf else pool.volt[j] - pool.at[j] * high
        return sheet.alike[0] * least, sheet.alike[0] * (pool.volt[i] - pool.at[i] * low)
    flat, steep = 0.0, 0.0
    for s in range(len(sheet.alike)):
        low, high = _ohms(sheet, cells, s, i, j, pool)
        flat += sheet.alike[s] / high if high < inf else 0.0
        steep += sheet.alike[s] / low if low > 0 else inf
    lift_i = pool.volt[i] - sheet.lead_ohm * pool.current[i]
    lift_j = pool.volt[j] - sheet.lead_ohm * pool.current[j]
    most = pool.current[i] - (flat if lift_i > 0 else steep) * lift_i
    return pool.current[j] - (steep if lift_j > 0 else flat) * lift_j, most


def _ohms(sheet: Sheet, cells: Cells, s: int, i: int, j: int, pool: Pool) -> tuple[float, float]:
    """Least and most -dV/dI of a string between two of its states. [ohm, ohm]"""
    least, most = sheet.tail_ohm[s], sheet.tail_ohm[s]
    counts, series = cells.amount, cells.series
    volts_i, volts_j = pool.junction_v[i], pool.junction_v[j]
    ohms_i, ohms_j = pool.junction_ohm[i], pool.junction_ohm[j]
    bends_i, bends_j = pool.curved[i], pool.curved[j]
    for k in range(sheet.first_part[s], sheet.first_part[s + 1]):
        low, high = sheet.joints_ohm[k], sheet.joints_ohm[k]
        for c in range(sheet.first_cell[k], sheet.first_cell[k + 1]):
            width, one, other = volts_j[c] - volts_i[c], ohms_i[c], ohms_j[c]
            if width >= 0:
                flat = _most(width, one, other, bends_i[c], bends_j[c])
            else:
                flat = _most(-width, other, one, bends_j[c], bends_i[c])
            low += counts[c] * (series[c] + min(one, other))
            high += counts[c] * (series[c] + flat)
        if sheet.kind[k] != NONE:
            beside_low, beside_high = _beside_ohms(sheet, k, i, j, pool)
            low, high = _parallel(low, beside_low), _parallel(high, beside_high)
        least, most = least + low, most + high
    if sheet.blocking[s] == 1:
        one, other = pool.string_a[i][s] + sheet.blocking_a[s], pool.string_a[j][s] + sheet.blocking_a[s]
        more, less, own, n = max(one, other), min(one, other), sheet.blocking_ohm[s], sheet.blocking_v[s]
        least += own + n / more if more > 0 else inf
        most += own + n / less if less > 0 else inf
    return least, most


def _parallel(one: float, other: float) -> float:
    conductance = (1.0 / one if one > 0 else inf) + (1.0 / other if other > 0 else inf)
    return 1.0 / conductance if conductance > 0 else inf


def _beside_ohms(sheet: Sheet, k: int, i: int, j: int, pool: Pool) -> tuple[float, float]:
    """Least and most slope of what lies beside a substring between two of its states. [ohm, ohm]"""
    if sheet.kind[k] == BRIDGE:
        return sheet.beside_ohm[k], sheet.beside_ohm[k]
    one, other = pool.branch_a[i][k] + sheet.beside_a[k], pool.branch_a[j][k] + sheet.beside_a[k]
    more, less, n = max(one, other), min(one, other), sheet.beside_v[k]
    low = n / more + sheet.beside_ohm[k] if more > 0 else inf
    return low, n / less + sheet.beside_ohm[k] if less > 0 else inf


def _most(width: float, low_ohm: float, high_ohm: float, low_bend: float, high_bend: float) -> float:
    """Most 1/g of a junction between a lower and a higher voltage. [ohm]"""
    if low_bend >= 0:
        return low_ohm
    if high_bend <= 0:
        return high_ohm
    low_g, high_g = 1.0 / low_ohm, 1.0 / high_ohm
    meet = (high_g - low_g - high_bend * width) / (low_bend - high_bend)  # of the tangents in the valley
    depth = low_g + low_bend * meet
    return 1.0 / depth if depth > 0 else inf
