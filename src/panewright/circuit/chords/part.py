"""A substring, its cells each in a light of its own, with what lies beside it."""

from __future__ import annotations

from math import exp, log, log1p

from panewright.circuit.chords.cell import SHARES, cell_points
from panewright.circuit.chords.curve import add_volts, amp_at
from panewright.circuit.chords.law import Law
from panewright.circuit.solver.sheet import BRIDGE, BYPASS, Column, Table
from panewright.units import KELVIN

ROOM = 2560  #: points of a curve, at most
_APART = 0.02  # of the brightest: lights nearer together share one row of currents
_NEAR = 1e-4  # of the brightest: currents nearer together tell nothing
_LEVELS = 8  # of light, at most
_ABOVE = (*(1.3**-k for k in range(22)), 0.0)  # ways up to the level above: a shaded cell bends most low down
_FULL_SUN, _REFERENCE_C = 1000.0, 25.0
_DIODE_FIRST, _DIODE_RATIO = 1e-3, 1.4
_LEAKS = 30.0  # this many nVth against it a diode leaks all of its saturation current


def part_points(
    law: Law,
    k: int,
    light_w_m2: Column,
    offset: int,
    cell_c: float,
    range_a: tuple[float, float],
    work: Table,
    volt: Column,
    amp: Column,
) -> int:
    """Points of a substring from the greatest to the least current of `range_a`. [V, A]

    `light_w_m2` is that of each cell, its own from `offset` on; `work` has three rows with ROOM.
    """
    lit, first = work[2], law.first_cell[k]
    count = law.first_cell[k + 1] - first
    for c in range(count):
        lit[c] = light_a(law, first + c, light_w_m2[offset + c], cell_c)
    points = currents(lit, count, range_a, amp)
    series = law.joints_ohm[k] + law.joints_ohm_k[k] * (cell_c - _REFERENCE_C)
    for q in range(points):
        volt[q] = -amp[q] * series
    for c in range(count):
        add_cell(law, first + c, light_w_m2[offset + c], cell_c, range_a, work, volt, amp, points)
    return beside(law, k, range_a[0], volt, amp, points, work)


def light_a(law: Law, c: int, light_w_m2: float, cell_c: float) -> float:
    """Light current of a cell. [A]"""
    full = law.light_a[c] + law.light_per_k[c] * (cell_c - _REFERENCE_C)
    return float(light_w_m2 / _FULL_SUN * max(full, 0.0))


def add_cell(
    law: Law,
    c: int,
    light_w_m2: float,
    cell_c: float,
    range_a: tuple[float, float],
    work: Table,
    volt: Column,
    amp: Column,
    points: int,
) -> None:
    """Add the voltage of one cell at the currents of a row. [V]"""
    k = cell_c + KELVIN
    first, end = cell_points(
        light_a(law, c, light_w_m2, cell_c),
        law.saturation_log[c] + 3.0 * log(k) - law.saturation_k[c] / k,
        law.ideality_v_k[c] * k,
        law.series_ohm[c],
        law.shunt_s[c] * light_w_m2 / _FULL_SUN,
        law.breakdown_s[c],
        law.breakdown_v[c],
        law.exponent[c],
        range_a[0],
        range_a[1],
        work[0],
        work[1],
    )
    add_volts(amp, points, work[0], work[1], first, end, volt)


def currents(lit: Column, count: int, range_a: tuple[float, float], amp: Column) -> int:
    """A falling row of currents, finest under each level of light; `lit` is put in order. [A]"""
    _sort(lit, count)
    most, least = range_a
    apart = max(_APART * lit[count - 1], (lit[count - 1] - lit[0]) / _LEVELS)
    above, number, points = most, count, 0
    while number > 0:
        level = lit[number - 1]
        while number > 0 and lit[number - 1] >= level - apart:
            number -= 1
        level = lit[number]
        below = lit[number - 1] if number > 0 else least
        points = _row(level, above, below, amp, points)
        above = level
    amp[points] = least
    _fall(amp, points + 1)
    return _tidy(amp, points + 1, lit[count - 1])


def _row(level: float, above: float, below: float, amp: Column, points: int) -> int:
    """Currents above a level of light, and below it to the next. [A]"""
    if above > level:
        for share in _ABOVE:
            amp[points] = level + share * (above - level)
            points += 1
    else:
        amp[points] = level
        points += 1
    for share in SHARES:
        current = level * (1.0 - share)
        if current <= below:
            break
        amp[points] = current
        points += 1
    return points


def _tidy(amp: Column, count: int, top: float) -> int:
    """Currents in falling order, none so near to the one before that it would tell nothing."""
    kept = 1
    for q in range(1, count):
        if amp[kept - 1] - amp[q] > _NEAR * top or q == count - 1:
            amp[kept] = amp[q]
            kept += 1
    return kept


def _fall(numbers: Column, count: int) -> None:
    """Put numbers that are nearly in falling order in it."""
    for k in range(1, count):
        one, j = numbers[k], k
        while j > 0 and numbers[j - 1] < one:
            numbers[j] = numbers[j - 1]
            j -= 1
        numbers[j] = one


def _sort(numbers: Column, count: int) -> None:
    """Put few numbers in rising order."""
    for k in range(1, count):
        one, j = numbers[k], k
        while j > 0 and numbers[j - 1] > one:
            numbers[j] = numbers[j - 1]
            j -= 1
        numbers[j] = one


def beside(law: Law, k: int, most_a: float, volt: Column, amp: Column, points: int, work: Table) -> int:
    """The same curve with what lies beside the cells. [V, A]"""
    if law.beside[k] == BRIDGE:
        for q in range(points):
            amp[q] -= volt[q] / law.beside_ohm[k]
        return points
    if law.beside[k] != BYPASS:
        return points
    leak, n, ohm = law.beside_a[k], law.beside_v[k], law.beside_ohm[k]
    own_v, own_a = work[0], work[1]
    for q in range(points):
        own_v[q], own_a[q] = volt[q], amp[q]
    count, current = 0, 1.05 * most_a
    while current > _DIODE_FIRST * most_a:
        drop = -(n * log1p(current / leak) + ohm * current)
        volt[count], amp[count] = drop, current + amp_at(own_v, own_a, points, drop)
        count, current = count + 1, current / _DIODE_RATIO
    for q in range(points):
        if own_v[q] > volt[count - 1]:
            volt[count], amp[count] = own_v[q], own_a[q] + _leak(leak, n, own_v[q])
            count += 1
    return count


def _leak(leak: float, n: float, volt: float) -> float:
    """Current of a bypass diode that does not conduct, or hardly. [A]"""
    return -leak if volt > _LEAKS * n else leak * (exp(-volt / n) - 1.0)
