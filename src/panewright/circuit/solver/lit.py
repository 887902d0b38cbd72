"""What a shaded cell takes in while the cells round it are lit, by their junctions alone.

The line of `hot.around` where nothing else is in trouble: no cell round the shaded one has to pass more than
its light. Elsewhere there is no number: the whole solver is asked.

Another substring of the string, its cells alike, is one equation in the voltage Vd of their junctions. They
swallow D(Vd), so they carry i = IL - D and have V = N Vd - R i between them; the diode beside them passes
j(-V), and i + j has to be the string's current. Each part follows from the one before and i + j falls with
Vd, so a bracketed Newton cannot fail. Far from there the diode only leaks.
"""

from __future__ import annotations

from math import exp, log, nan

from panewright.cell.root import Array
from panewright.circuit.solver.junction import forward, top_share
from panewright.circuit.solver.sheet import Column, Table
from panewright.circuit.solver.substring import past_straight_a

FIGURES = 13  #: of each row
LIGHT, SATURATION, IDEALITY, SHUNT, BREAKDOWN, BREAKDOWN_V, EXPONENT = range(7)  #: of one of the cells
CELLS, OHM, TIMES, LEAK, BESIDE_V, BESIDE_OHM = range(7, 13)
"""How many cells; resistance of all [ohm]; how many such substrings; leak of the diode beside each, 0 where
there is none [A]; its nVth [V] and resistance [ohm]."""
IN_LINE, JOINTS, OWN_LEAK, OWN_V, OWN_OHM = range(5)
"""Of the line: leads and tail; joints of the cell's own substring [ohm]; the diode beside it."""
_LEAKS = 40.0  # this many nVth against it a diode leaks its whole saturation current, to 1e-17
_CLOSE = 1e-13  # of nVth: a last step
_ROUNDS = 100


def heats(line: Column, mates: Table, row: Table, held_v: float, amps: Column, told: Array) -> None:
    """Watts the cell takes in at each current of its string, the panel held at a voltage. [W]

    `mates` are kinds of cells of its own substring, `row` the other substrings.
    """
    for p in range(len(amps)):
        told[p] = _heat_w(line, mates, row, held_v, amps[p])


def _heat_w(line: Column, mates: Table, row: Table, held_v: float, string_a: float) -> float:
    volt = held_v + line[IN_LINE] * string_a
    for k in range(len(row)):
        volt -= row[k][TIMES] * _part_v(row[k], string_a)
    own = string_a
    if line[OWN_LEAK] > 0:
        own -= past_straight_a(line[OWN_LEAK], line[OWN_V], -volt, line[OWN_OHM])
    volt += line[JOINTS] * own
    for k in range(len(mates)):
        volt -= _between_v(mates[k], _junction_v(mates[k], own), own)
    return -volt * own


def _between_v(cells: Column, junction_v: float, own: float) -> float:
    """Voltage of so many cells. [V]"""
    return cells[CELLS] * junction_v - own * cells[OHM]


def _junction_v(cells: Column, own: float) -> float:
    """Of one cell at its current; no number where that is more than its light. [V]"""
    need, i0, n, vbr = cells[LIGHT] - own, cells[SATURATION], cells[IDEALITY], cells[BREAKDOWN_V]
    if not need >= 0:
        return nan
    volt, _, _ = forward(
        need, i0, 1.0 / i0, n, 1.0 / n, cells[SHUNT], cells[BREAKDOWN], vbr, 1.0 / vbr, cells[EXPONENT]
    )
    return volt


def _part_v(part: Column, string_a: float) -> float:
    """Voltage of another substring. [V]"""
    leak, n = part[LEAK], part[BESIDE_V]
    low = _junction_v(part, string_a + leak)  # all that the diode can leak goes through the cells
    volt = _between_v(part, low, string_a + leak)
    if leak == 0 or volt > _LEAKS * n or not low >= 0:
        return volt
    high = _junction_v(part, string_a)
    if _between_v(part, high, string_a) < 0:  # then the diode helps, and no more than all cells idle
        high = _junction_v(part, 0.0)
    at = low
    for _ in range(_ROUNDS):
        swallowed, slope = _swallowed(part, at)
        own = part[LIGHT] - swallowed
        volt = _between_v(part, at, own)
        beside = past_straight_a(leak, n, -volt, part[BESIDE_OHM])
        surplus, over = own + beside - string_a, max(beside + leak, 0.0)
        if surplus > 0:
            low = at
        else:
            high = at
        fall = slope + (part[CELLS] + part[OHM] * slope) * over / (n + part[BESIDE_OHM] * over)
        step = surplus / fall
        new = at + step
        if not low <= new <= high:
            new = 0.5 * (low + high)
        if abs(step) <= _CLOSE * n or new == at:
            return volt + (part[CELLS] + part[OHM] * slope) * step
        at = new
    return nan


def _swallowed(cell: Column, volt: float) -> tuple[float, float]:
    """Current that a forward junction swallows, and its slope. [A, S]"""
    i0, n, g, m = cell[SATURATION], cell[IDEALITY], cell[BREAKDOWN], cell[EXPONENT]
    rising, top = i0 * exp(volt / n), top_share(m)
    share = max(volt / cell[BREAKDOWN_V], top)
    broken = g * exp(-m * log(1.0 - share))
    bent = max(1.0 + (m - 1.0) * share, 0.0) / (1.0 - share)
    swallowed = rising - i0 + volt * cell[SHUNT] + share * cell[BREAKDOWN_V] * broken
    return swallowed, rising / n + cell[SHUNT] + broken * bent
