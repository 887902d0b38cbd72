"""What every cell of a panel goes through while the panel is held at one voltage.

A weak cell under the current of strong ones is driven into reverse and heats: what it absorbs at its
terminals, and how near it comes to breakdown, decide whether it needs a bypass diode over fewer cells.

Where the digits of a current no longer tell a reversed cell's voltage, Kirchhoff's law does: what its
substring, or all unguarded ones together, must have, less what the other cells have. Cells without a shunt
and without a breakdown term pass in reverse the same current whatever the voltage. Where several of them
share a voltage, only the sum is known: each cell's own lies between bounds, and these are reported in place
of a figure that nothing supports.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import inf, log

from panewright.circuit.network import Network
from panewright.circuit.solver.panel import Panel
from panewright.circuit.solver.sheet import NONE
from panewright.circuit.solver.string import GRAIN
from panewright.circuit.solver.substring import HAIR, diode_v

_MOST_V = 1e6
_VAGUE_V = 1e-9  # what the grain of a current may leave open of a voltage
_STUCK = 10.0  # this many nVth in reverse nothing but the diode's own leak is left of its law


@dataclass(frozen=True, slots=True)
class CellState:
    """One cell at work."""

    string: int  #: 0 for the first string
    number: int  #: along its string from the minus end, 1 for the first
    voltage_v: float  #: at its own terminals, in the direction of the string
    current_a: float
    low_v: float  #: the voltage lies between these two; all three are one but for equal saturated cells
    high_v: float

    @property
    def absorbed_w(self) -> float:
        """Power the cell takes in; negative while it gives. [W]"""
        return -self.voltage_v * self.current_a

    @property
    def least_absorbed_w(self) -> float:
        """The least of it, where the voltage is not settled. [W]"""
        return min(-self.low_v * self.current_a, -self.high_v * self.current_a)

    @property
    def most_absorbed_w(self) -> float:
        """The most of it, where the voltage is not settled. [W]"""
        return max(-self.low_v * self.current_a, -self.high_v * self.current_a)

    @property
    def determined(self) -> bool:
        """Whether the physics settles the cell's voltage."""
        return self.low_v == self.high_v


def cell_states(network: Network, voltage: float = 0.0) -> tuple[CellState, ...]:
    """Every cell of a panel held at a terminal voltage, short circuit if none is given."""
    if not abs(voltage) <= _MOST_V:
        raise ValueError(f"a terminal voltage is a number within {_MOST_V:g} V, got {voltage}")
    panel = Panel.of(network)
    bus, _ = panel.held(float(voltage))
    return tuple(states_of(network, panel, bus))


def limiting(states: Iterable[CellState]) -> tuple[CellState, ...]:
    """The cells that limit their strings: those that take power in while others give, the most first.

    Without any such, the cell of each string that gives the least: at the panel's greatest power it is the
    one whose light, or whose resistance, holds the string back.
    """
    found = sorted(states, key=lambda state: -state.absorbed_w)
    takers = tuple(state for state in found if state.absorbed_w > 0)
    if takers:
        return takers
    first: dict[int, CellState] = {}
    for state in found:
        first.setdefault(state.string, state)
    return tuple(first.values())


def states_of(network: Network, panel: Panel, bus: float) -> Iterator[CellState]:
    """Every cell of a panel that was last solved at a bus voltage."""
    each = [settled(panel, s, bus) for s in range(len(panel.laid.sheet.alike))]
    columns = iter(panel.laid.column)
    for place, string in enumerate(network.strings):
        found, number = each[panel.laid.string[place]], 0
        for part in string.substrings:
            for _ in part.cells:
                number += 1
                low, high, own = found[next(columns)]
                yield CellState(place, number, 0.5 * (low + high), own, low, high)


def settled(panel: Panel, s: int, bus: float) -> dict[int, tuple[float, float, float]]:
    """Least and greatest voltage of every column of cells of a string, and its current. [V, V, A]"""
    sheet, cells, work = panel.laid.sheet, panel.laid.cells, panel.hand.work
    found: dict[int, tuple[float, float, float]] = {}
    for k in range(sheet.first_part[s], sheet.first_part[s + 1]):
        for c in range(sheet.first_cell[k], sheet.first_cell[k + 1]):
            volt = cells.sign[c] * work.junction_v[c] - work.own_a[k] * cells.series[c]
            found[c] = volt, volt, work.own_a[k]
    for parts, total in _groups(panel, s, bus):
        _settle(panel, parts, total, found)
    return found


def _groups(panel: Panel, s: int, bus: float) -> Iterator[tuple[list[int], float]]:
    """Substrings of which only the voltage of all together is settled, and that voltage. [V]

    What the string as a whole must have and has not is shared out as the substrings give way.
    """
    sheet, work, current = panel.laid.sheet, panel.hand.work, panel.hand.near_a[s]
    parts = range(sheet.first_part[s], sheet.first_part[s + 1])
    if sheet.blocking[s] and current <= -sheet.blocking_a[s]:  # its diode bears what the substrings leave
        yield from (([k], work.part_v[k]) for k in parts if sheet.kind[k] != NONE)
        return
    whole = bus + current * sheet.tail_ohm[s]
    if sheet.blocking[s]:
        whole += diode_v(sheet.blocking_a[s], sheet.blocking_v[s], sheet.blocking_ohm[s], current)
    soft = [min(work.part_ohm[k], 1e30) for k in parts]
    slip = (whole - sum(_finite(work.part_v[k]) for k in parts)) / max(sum(soft), 1e-30)
    volts = {k: _finite(work.part_v[k]) + slip * ohm for k, ohm in zip(parts, soft, strict=True)}
    alone = [k for k in parts if sheet.kind[k] == NONE]
    yield from (([k], volts[k]) for k in parts if k not in alone)
    if alone:
        yield alone, sum(volts[k] for k in alone)


def _settle(
    panel: Panel, parts: list[int], total: float, found: dict[int, tuple[float, float, float]]
) -> None:
    """Mend the voltages of reversed cells that their current does not tell."""
    sheet, cells, work = panel.laid.sheet, panel.laid.cells, panel.hand.work
    places = [(c, k) for k in parts for c in range(sheet.first_cell[k], sheet.first_cell[k + 1])]
    vague = [c for c, k in places if _is_vague(panel, c, k)]
    if not vague:
        return
    joints = sum(work.own_a[k] * sheet.joints_ohm[k] for k in parts)
    slack = total + joints - sum(cells.amount[c] * _finite(found[c][0]) for c, _ in places)
    soft = {c: min(work.junction_ohm[c], 1e30) for c in vague}
    slip = slack / sum(cells.amount[c] * soft[c] for c in vague)
    for c in vague:  # all feel the same slip of the current, each by its own slope
        volt = _finite(found[c][0]) + slip * soft[c]
        found[c] = volt, volt, found[c][2]
    stuck = [c for c in vague if _is_stuck(panel, c, cells.sign[c] * found[c][0])]
    if sum(cells.amount[c] for c in stuck) > 1:
        _bounded(panel, stuck, sum(cells.amount[c] * found[c][0] for c in stuck), found)


def _finite(volt: float) -> float:
    return volt if abs(volt) < inf else 0.0


def _is_vague(panel: Panel, c: int, k: int) -> bool:
    """Whether the digits of its current leave a cell's voltage open."""
    sheet, work = panel.laid.sheet, panel.hand.work
    digits = GRAIN * abs(work.own_a[k])
    if sheet.kind[k] != NONE:
        digits += 2 * HAIR * (abs(work.branch_a[k]) + sheet.beside_a[k])
    return 2 * digits * min(work.junction_ohm[c], 1e30) > _VAGUE_V


def _is_stuck(panel: Panel, c: int, volt: float) -> bool:
    """Whether a cell passes its own leak and no more, whatever its voltage."""
    cells = panel.laid.cells
    return cells.shunt[c] == 0 and cells.breakdown[c] == 0 and volt < -_STUCK * cells.ideality[c]


def _bounded(
    panel: Panel, mine: list[int], missing: float, found: dict[int, tuple[float, float, float]]
) -> None:
    """Bounds of cells that share a voltage as nothing tells: each from where its current would tell, down."""
    cells, sign = panel.laid.cells, panel.laid.cells.sign[mine[0]]  # no current drives both kinds backward
    told = {
        c: cells.ideality[c] * log(min(2 * GRAIN * abs(found[c][2]) / cells.saturation[c], 1.0)) for c in mine
    }
    spare = sign * missing - sum(cells.amount[c] * told[c] for c in mine)
    many = sum(cells.amount[c] for c in mine)
    for c in mine:
        if spare < 0:
            low, high = sorted((sign * (told[c] + spare), sign * told[c]))
            found[c] = low, high, found[c][2]
        else:
            found[c] = missing / many, missing / many, found[c][2]
