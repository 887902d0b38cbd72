"""Strings side by side between two leads, at a bus voltage, at a current, and held at a voltage.

Without blocking diodes a weak string may be driven backwards by the others: its current is then negative.
"""

from __future__ import annotations

from math import inf

from panewright.circuit.solver.hand import Hand
from panewright.circuit.solver.sheet import Cells, Sheet
from panewright.circuit.solver.string import foresee, string_a, string_at

MOST_V = 1e6  #: strings without any reverse path fall, or rise, without end; no bus is looked for beyond
_CLOSE = 1e-11
_GRAIN, _TOLD_V = 1e-13, 1e-10
_LEFT, _SHORT_V = 1e-10, 1e-3  # of the current, a curved part that need not be looked at; in such a step
_ROUNDS, _PATIENCE = 300, 8


def bus_at(sheet: Sheet, cells: Cells, bus: float, settle: bool, hand: Hand) -> tuple[float, float, float]:
    """Current of all strings at a bus voltage, Y = -dI/dU, and dY/dU. [A, S, S/V]

    The hand's `near_a` holds a current near that of every string, and is written to.
    """
    total, siemens, bend = 0.0, 0.0, 0.0
    for s in range(len(sheet.alike)):
        current, ohm, curved = string_a(sheet, cells, s, bus, settle, hand)
        hand.near_a[s] = current
        total += sheet.alike[s] * current
        if ohm < inf:
            siemens += sheet.alike[s] / ohm
            bend += sheet.alike[s] * curved / (ohm * ohm * ohm)
    return total, siemens, bend


def bus_v(sheet: Sheet, cells: Cells, current: float, settle: bool, hand: Hand) -> float:
    """Bus voltage at which all strings together give a current. [V]

    Without `settle` a lone string's parts stand only near their current; strings side by side always settle.

    Were the current shared evenly, every string would have a voltage of its own; the bus lies between the
    least and the greatest of these.
    """
    even, low, high = current / sum(sheet.alike), inf, -inf
    for s in range(len(sheet.alike)):
        volt, _, _ = string_at(sheet, cells, s, even, hand.guess_a, settle, hand.work)
        low, high = min(low, volt), max(high, volt)
        hand.near_a[s] = even
    if len(sheet.alike) == 1:
        return low
    low, high = max(low, -MOST_V), min(high, MOST_V)
    bus = 0.5 * (low + high) if low > -100.0 else high
    for turn in range(_ROUNDS):
        got, siemens, _ = bus_at(sheet, cells, bus, True, hand)
        if got > current:
            low = bus
        else:
            high = bus
        new = bus + (got - current) / siemens if siemens > 0 else inf
        if abs(new - bus) <= _CLOSE * (1.0 + abs(bus)):
            return min(max(new, low), high)
        if not low <= new <= high or (turn >= _PATIENCE and turn % 2 == 1):
            new = 0.5 * (low + high)
        if high - low <= _GRAIN * max(abs(low), abs(high)) or got == current:
            break
        bus = new
    return bus


def held_at(
    sheet: Sheet, cells: Cells, volt: float, ohm: float, settle: bool, hand: Hand
) -> tuple[float, float]:
    """Bus voltage and current where a voltage lies behind a resistance: leads, or leads and a load. [V, A]"""
    bus = _foreseen_v(sheet, cells, volt, ohm, hand)
    low, high = -inf, inf
    for turn in range(_ROUNDS):
        total, siemens, bend = bus_at(sheet, cells, bus, settle, hand)
        surplus = bus - ohm * total - volt
        if ohm == 0 or surplus == 0:
            break
        step = -surplus / (1.0 + ohm * siemens)
        curved = 0.5 * bend * step * step
        inside = not settle and low < bus + step < high and abs(step) <= _SHORT_V
        if inside and abs(curved) <= _LEFT * (1.0 + abs(total)):
            return bus + step, total - siemens * step - curved
        if surplus < 0:
            low, high = bus, min(high, volt + ohm * total)
        else:
            low, high = max(low, volt + ohm * total), bus
        new = bus + step
        small = abs(step) <= 1e-12 * (1.0 + abs(bus))
        if not low <= new <= high or (turn >= _PATIENCE and turn % 2 == 1):
            new = 0.5 * (low + high)
        if small or high - low <= _GRAIN * max(abs(low), abs(high)):
            break
        bus = new
    told = ohm == 0 or (ohm * siemens <= 1.0 and abs(surplus) <= _TOLD_V * (1.0 + abs(bus)))
    return bus, total if told else (bus - volt) / ohm  # at a wall of the strings the leads tell the current


def _foreseen_v(sheet: Sheet, cells: Cells, volt: float, ohm: float, hand: Hand) -> float:
    """Where the bus is looked for first, and every string's current with it. [V]"""
    bus = volt
    for _ in range(1 if ohm == 0 else 2):
        total = 0.0
        for s in range(len(sheet.alike)):
            total += sheet.alike[s] * hand.near_a[s]
        bus = volt + ohm * total
        for s in range(len(sheet.alike)):
            foresee(sheet, cells, s, bus, hand)
    return bus
