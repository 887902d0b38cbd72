"""What of a substring its cells' current does not change, reckoned once for a panel."""

from __future__ import annotations

from math import inf

from panewright.circuit.solver.sheet import BYPASS, FACTS, NONE, TURNED, Cells, Sheet

UPRIGHT, SHADED, BACKWARD, LIMIT, CAP, BACK_CAP, SERIES = range(FACTS)
"""Greatest light of its upright cells, the least; greatest of its turned cells; least light, and that with
the leak, of upright cells that nothing else passes in reverse; the same of turned cells [A]; resistance in
series [ohm]."""


def learn(sheet: Sheet, cells: Cells) -> None:
    """Set the facts of every substring."""
    for k in range(len(sheet.kind)):
        upright, shaded, backward, limit, cap, series = 0.0, inf, 0.0, inf, inf, sheet.joints_ohm[k]
        back_cap = inf
        for c in range(sheet.first_cell[k], sheet.first_cell[k + 1]):
            light, series = cells.light[c], series + cells.amount[c] * cells.series[c]
            no_way = cells.shunt[c] == 0 and cells.breakdown[c] == 0
            if cells.sign[c] < 0:
                backward = max(backward, light)
                back_cap = min(back_cap, light + cells.saturation[c] if no_way else inf)
                continue
            upright, shaded = max(upright, light), min(shaded, light)
            if no_way:
                limit, cap = min(limit, light), min(cap, light + cells.saturation[c])
        facts = cells.parts[k]
        facts[UPRIGHT], facts[SHADED], facts[BACKWARD] = upright, shaded, backward
        facts[LIMIT], facts[CAP], facts[BACK_CAP], facts[SERIES] = limit, cap, back_cap, series


def brightest_a(sheet: Sheet, cells: Cells, s: int) -> tuple[float, float, float]:
    """Greatest light of a string's upright cells, of its turned ones, and the most that can pass. [A]"""
    upright, backward, cap = 0.0, 0.0, inf
    for k in range(sheet.first_part[s], sheet.first_part[s + 1]):
        facts = cells.parts[k]
        spare = 0.0 if sheet.kind[k] == NONE else sheet.beside_a[k] if sheet.kind[k] == TURNED else inf
        upright, backward = max(upright, facts[UPRIGHT]), max(backward, facts[BACKWARD])
        cap = min(cap, facts[CAP] + spare)
    return upright, backward, cap


def least_a(sheet: Sheet, cells: Cells, s: int) -> float:
    """The least current a string can carry: its blocking diode's leak, or what its turned cells pass. [A]"""
    least = -sheet.blocking_a[s] if sheet.blocking[s] == 1 else -inf
    for k in range(sheet.first_part[s], sheet.first_part[s + 1]):
        spare = 0.0 if sheet.kind[k] == NONE else sheet.beside_a[k] if sheet.kind[k] == BYPASS else inf
        least = max(least, -cells.parts[k][BACK_CAP] - spare)
    return least


def series_ohm(sheet: Sheet, cells: Cells, s: int) -> float:
    """What of a string's resistance does not change with current, as long as no diode passes it by. [ohm]"""
    ohm = sheet.tail_ohm[s]
    for k in range(sheet.first_part[s], sheet.first_part[s + 1]):
        ohm += cells.parts[k][SERIES]
    return ohm
