"""Voltages of one panel, in one light and heat, with few things wrong: by what each changes.

A fault changes one cell, one joint or one diode. So the sound rows are kept, and a faulty one is the sound
one's cells plus the difference that the fault makes, with its diode anew. The same as `kinds.broken` with
`circuit.summed`, in a tenth of the time, for thousands of suppositions.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from panewright.bench.fault.kinds import Key, Scale
from panewright.cell.damage import Cracked, Shaded, Shunted
from panewright.cell.root import Array
from panewright.circuit.damage import DiodeShorted
from panewright.circuit.network import Bridge, Network, Substring, Turned
from panewright.circuit.place import CellAt, DiodeAt, Place, StringAt, within
from panewright.circuit.summed import Summed, at_levels_a, beside, open_v, shared_v
from panewright.enclosure.bypass import Bypass

InRow = tuple[Key, float, int]  #: kind, strength, cell of the row
At = tuple[Key, float, Place]
_BRIDGED_OHM = 1e-3  # what is left of a row's only cell


@dataclass(frozen=True, slots=True)
class SortedOut:
    """What is wrong, by string and row, in the order told; and the strings that are open."""

    rows: dict[tuple[int, int], tuple[InRow, ...]]
    open_strings: tuple[int, ...]


def sorted_out(network: Network, wrong: Sequence[At]) -> SortedOut:
    """Of a network that is wired alike, whatever its light."""
    rows: dict[tuple[int, int], tuple[InRow, ...]] = {}
    for key, strength, place in wrong:
        if isinstance(place, DiodeAt):
            row, cell = place.substring, 0
        elif isinstance(place, CellAt):
            row, cell = within(network, place)
        else:
            continue
        at = place.string, row
        rows[at] = (*rows.get(at, ()), (key, strength, cell))
    return SortedOut(rows, tuple(place.string for _, _, place in wrong if isinstance(place, StringAt)))


class Stacked:
    """One panel at a rising grid of currents of one string."""

    def __init__(self, network: Network, currents: Array, scale: Scale) -> None:
        self.network, self.currents, self._scale = network, currents, scale
        self._summed = Summed(currents)
        self._stacks = [
            [self._summed.stack_v(row) for row in string.substrings] for string in network.strings
        ]
        self._sound = [[self._summed.row_v(row) for row in string.substrings] for string in network.strings]
        self._strings = [self._summed.string_v(string) for string in network.strings]
        self._open_v = [open_v(currents, each) for each in self._strings]
        self._kept: dict[tuple[int, int, tuple[InRow, ...]], Array] = {}
        self._changes: dict[tuple[int, InRow], Array | float] = {}  # of one fault in a row
        self._levels: dict[tuple[int, float], Array] = {}  # currents of a sound string, up to which voltage

    def panel_v(self, wrong: Sequence[At]) -> Array:
        """Terminal voltage at so many times the grid's currents as there are strings. [V]"""
        return self.joined_v(self.strings_v(sorted_out(self.network, wrong)))

    def strings_v(self, wrong: SortedOut) -> list[Array]:
        """Voltage of every string at the grid's currents. [V]"""
        strings = list(self._strings)
        for (s, k), faults in wrong.rows.items():
            strings[s] = strings[s] + (self._row_v(s, k, faults) - self._sound[s][k])
        for s in wrong.open_strings:
            strings[s] = self._summed.nothing_v()
        return strings

    def joined_v(self, strings: Sequence[Array]) -> Array:
        """Terminal voltage of strings of such voltages, side by side behind the lead. [V]"""
        together = strings[0] if len(strings) == 1 else self._together_v(strings)
        return np.asarray(together - self.currents * len(strings) * self.network.lead_ohm)

    def _together_v(self, strings: Sequence[Array]) -> Array:
        """Of strings side by side, of which most are sound: what these carry at each voltage is kept. [V]"""
        opens = [
            self._open_v[s] if each is self._strings[s] else open_v(self.currents, each)
            for s, each in enumerate(strings)
        ]
        top = max(opens)
        parts = [self._carried_a(s, each, top) for s, each in enumerate(strings)]
        return shared_v(self.currents, parts, top)

    def _carried_a(self, s: int, volts: Array, top_v: float) -> Array:
        if volts is not self._strings[s] or top_v not in self._open_v:
            return at_levels_a(self.currents, volts, top_v)
        if (s, top_v) not in self._levels:
            self._levels[s, top_v] = at_levels_a(self.currents, volts, top_v)
        return self._levels[s, top_v]

    def open_v(self, wrong: Sequence[At]) -> float:
        """Terminal voltage at no current. [V]"""
        return open_v(self.currents, self.panel_v(wrong))

    def string_a(self, wrong: Sequence[At], string: int, terminal_v: float) -> float:
        """Current of a string while the panel is held at a voltage. [A]"""
        whole = self.panel_v(wrong)
        panel_a = float(np.interp(-terminal_v, -whole, self.currents)) * len(self._strings)
        bus = terminal_v + panel_a * self.network.lead_ohm
        there = sorted_out(self.network, wrong)
        if string in there.open_strings:
            return 0.0
        volts = self._strings[string]
        for (s, k), faults in there.rows.items():
            if s == string:
                volts = volts + (self._row_v(s, k, faults) - self._sound[s][k])
        return float(np.interp(-bus, -volts, self.currents))

    def row_at(self, wrong: Sequence[At], string: int, row: int, amps: float) -> tuple[float, float]:
        """A row's voltage at its string's current, and what its cells carry of that. [V, A]"""
        faults = sorted_out(self.network, wrong).rows.get((string, row), ())
        volts, stack = self._sound[string][row], self._stacks[string][row]
        if faults:
            volts, stack = self._row_v(string, row, faults), self._stack_v(string, row, faults)
        row_v = float(np.interp(amps, self.currents, volts))
        return row_v, float(np.interp(-row_v, -stack, self.currents))

    def cells_at(self, row: Substring, amps: float) -> Array:
        """Voltage of every cell of a sound row with its joint, at their current. [V]"""
        kinds = {
            (cell, turned): float(np.interp(amps, self.currents, self._summed.cell_v(cell, turned)))
            for cell, turned in {(cell, c in row.turned) for c, cell in enumerate(row.cells)}
        }
        each = [kinds[cell, c in row.turned] for c, cell in enumerate(row.cells)]
        return np.array(each) - amps * np.array(row.joints_ohm)

    def _row_v(self, s: int, k: int, faults: tuple[InRow, ...]) -> Array:
        """Of a row with faults; rows that are one record share it."""
        row = self.network.strings[s].substrings[k]
        key = (id(row), k if row.turned else 0, faults)
        if key not in self._kept:
            stack = self._stack_v(s, k, faults)
            self._kept[key] = beside(self.currents, stack, _diode(row, faults))
        return self._kept[key]

    def _stack_v(self, s: int, k: int, faults: tuple[InRow, ...]) -> Array:
        """Of a row's cells and joints alone."""
        if any(key == "joint open" for key, _, _ in faults):
            return self._summed.nothing_v()
        row = self.network.strings[s].substrings[k]
        volts = self._stacks[s][k]
        for each in faults:
            if (id(row), each) not in self._changes:
                self._changes[id(row), each] = self._change_v(row, each)
            volts = volts + self._changes[id(row), each]
        return np.asarray(volts)

    def _change_v(self, row: Substring, fault: InRow) -> Array | float:
        """What a fault adds to the voltage of the row's cells. [V]"""
        key, strength, at = fault
        cell, turned = row.cells[at], at in row.turned
        was = self._summed.cell_v(cell, turned)
        match key:
            case "cell gone":
                left = -self.currents * (row.joints_ohm[at] if len(row.cells) == 1 else 0.0)
                lone = (
                    self._summed.cell_v(Shunted(_BRIDGED_OHM).of(cell), turned) if len(row.cells) == 1 else 0
                )
                return lone + left - was + self.currents * row.joints_ohm[at]
            case "cell turned":
                return self._summed.cell_v(cell, not turned) - was
            case "weak cell":
                return self._summed.cell_v(Shaded(strength).of(cell), turned) - was
            case "cracked cell":
                return self._summed.cell_v(Cracked(strength).of(cell), turned) - was
            case "shunt":
                return self._summed.cell_v(Shunted(strength * self._scale.cell_ohm).of(cell), turned) - was
            case "resistance":
                return -self.currents * strength * self._scale.panel_ohm
        return 0.0


def _diode(row: Substring, faults: Sequence[InRow]) -> Bypass | Turned | Bridge | None:
    """What lies beside the row's cells, with what is wrong with it."""
    there = row.bypass
    for key, _, _ in faults:
        if key == "bypass shorted":
            there = Bridge(DiodeShorted().ohm)
        elif key == "bypass turned" and not isinstance(there, Bridge) and there is not None:
            there = there.diode if isinstance(there, Turned) else Turned(there)
    return there
