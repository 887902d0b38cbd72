"""Voltages of many panels at the same currents, where the panels differ in few cells.

Cells in series add their voltages. So the voltages of every cell and of every row under a bypass diode are
kept, and a panel in which one cell differs costs that one cell. At the currents of the grid the cells'
voltages are exact. What flows beside a row is found with the row's current straight between the grid's
points: that errs by less than a step of the grid in a current of which the diode's drop is a logarithm.
Strings side by side share a voltage; their currents are added on a grid of voltages, straight between its
points. For single points, and for any accuracy, there is `solve`.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from panewright.cell.curve import voltage_v
from panewright.cell.diode import Diode
from panewright.cell.root import Array
from panewright.circuit.network import Bridge, Network, String, Substring, Turned
from panewright.enclosure.bypass import Bypass

_FAR_V = 1e3  # stands for a voltage that no current reaches
_HALVINGS = 24  # to a millionth of an ampere or so
_LEVELS = 3000  # of voltage, where strings lie side by side
_LOWEST_V = -1.0  # where those begin: below short circuit
_RowKey = tuple[tuple[Diode, ...], tuple[float, ...], Bypass | Turned | Bridge | None, tuple[int, ...]]


class Summed:
    """Panels at a rising grid of currents of one string; what was reckoned once is kept."""

    def __init__(self, currents: Array) -> None:
        if currents.ndim != 1 or currents.size < 3 or not np.all(np.diff(currents) > 0):
            raise ValueError("the currents of a grid rise from point to point, three of them or more")
        self.currents = currents
        self._cells: dict[tuple[Diode, bool], Array] = {}
        self._rows: dict[_RowKey, Array] = {}

    def panel_v(self, network: Network) -> Array:
        """Terminal voltage at so many times the grid's currents as there are strings. [V]

        A thousand, or minus as much, stands where no voltage drives that current.
        """
        strings = [self._string_v(string) for string in network.strings]
        together = strings[0] if len(strings) == 1 else _side_by_side(self.currents, strings)
        return np.asarray(together - self.currents * len(strings) * network.lead_ohm)

    def _string_v(self, string: String) -> Array:
        rows = np.sum([self._row_v(row) for row in string.substrings], axis=0)
        if string.tail_ohm == np.inf:
            return np.where(self.currents > 0, -_FAR_V, np.where(self.currents < 0, _FAR_V, rows))
        volts = rows - self.currents * string.tail_ohm
        if string.blocking is None:
            return np.asarray(volts)
        let_out = volts - _drop_v(string.blocking, self.currents)
        return np.asarray(np.where(self.currents < 0, _FAR_V, let_out))

    def _row_v(self, row: Substring) -> Array:
        key = (row.cells, row.joints_ohm, row.bypass, row.turned)  # a row's own hash is of its ends alone
        if key not in self._rows:
            self._rows[key] = _beside(self.currents, self._stack_v(row), row.bypass)
        return self._rows[key]

    def _stack_v(self, row: Substring) -> Array:
        """The row's cells and joints alone."""
        alike: dict[tuple[Diode, bool], int] = {}
        for place, cell in enumerate(row.cells):
            key = (cell, place in row.turned)
            alike[key] = alike.get(key, 0) + 1
        if np.inf in row.joints_ohm:
            return np.where(self.currents > 0, -_FAR_V, _FAR_V)
        volts = np.sum([count * self._cell_v(*key) for key, count in alike.items()], axis=0)
        return np.asarray(np.clip(volts - self.currents * sum(row.joints_ohm), -_FAR_V, _FAR_V))

    def _cell_v(self, cell: Diode, turned: bool) -> Array:
        key = (cell, turned)
        if key not in self._cells:
            volts = -voltage_v(cell, -self.currents) if turned else voltage_v(cell, self.currents)
            self._cells[key] = np.clip(volts, -_FAR_V, _FAR_V)
        return self._cells[key]


def _drop_v(diode: Bypass, amperes: Array) -> Array:
    """Forward voltage of a diode. [V]"""
    flowing = np.maximum(amperes, 0.0)
    return np.asarray(diode.ideality_v * np.log1p(flowing / diode.saturation_a) + diode.series_ohm * flowing)


def _beside(currents: Array, stack: Array, beside: Bypass | Turned | Bridge | None) -> Array:
    """Voltage of a row with what lies beside its cells, at the current through both. [V]

    A diode passes one way only: where it blocks, the cells are alone.
    """
    shared = np.array(stack)
    match beside:
        case None:
            return stack
        case Bridge(ohm):
            open_way = np.full(stack.shape, True)
            law, ends = (lambda taken: ohm * taken), (-np.inf, np.inf)
        case Turned(diode):
            open_way = stack > 0
            law, ends = (lambda taken: _drop_v(diode, taken)), (0.0, np.inf)
        case Bypass():
            open_way = stack < 0
            law, ends = (lambda taken: -_drop_v(beside, -taken)), (-np.inf, 0.0)
    shared[open_way] = _shared((currents, stack), currents[open_way], law, ends)
    return shared


def _shared(
    row: tuple[Array, Array], asked: Array, beside_v: Callable[[Array], Array], ends: tuple[float, float]
) -> Array:
    """Voltage where cells and what lies beside them agree; `beside_v` rises with the current it takes.

    The cells carry the row's current and what is taken, so their voltage falls with it: one crossing.
    """
    currents, stack = row
    low, high = np.maximum(currents[0] - asked, ends[0]), np.minimum(currents[-1] - asked, ends[1])
    for _ in range(_HALVINGS):
        taken = 0.5 * (low + high)
        more = np.interp(asked + taken, currents, stack) > beside_v(taken)
        low, high = np.where(more, taken, low), np.where(more, high, taken)
    return beside_v(0.5 * (low + high))


def _side_by_side(currents: Array, strings: list[Array]) -> Array:
    """Voltage of strings in parallel, at so many times the currents of one. [V]"""
    levels = np.linspace(_LOWEST_V, max(float(np.interp(0.0, currents, each)) for each in strings), _LEVELS)
    together = np.sum([np.interp(levels, volts[::-1], currents[::-1]) for volts in strings], axis=0)
    return np.asarray(np.interp(currents * len(strings), together[::-1], levels[::-1]))
