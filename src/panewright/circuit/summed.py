"""Voltages of many panels at the same currents, where the panels differ in few cells.

Cells in series add their voltages. So the voltages of every cell and of every row under a bypass diode are
kept, and a panel in which one cell differs costs that one cell. At the currents of the grid the cells'
voltages are exact. What flows beside a row is found with the row's current straight between the grid's
points: that errs by less than a step of the grid in a current of which the diode's drop is a logarithm.
Strings side by side share a voltage; their currents are added on a grid of voltages, straight between its
points. For single points, and for any accuracy, there is `solve`.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from panewright.cell.diode import Diode
from panewright.cell.root import Array
from panewright.cell.tabled import tabled_v
from panewright.circuit.network import Bridge, Network, String, Substring, Turned
from panewright.enclosure.bypass import Bypass

_FAR_V = 1e3  # stands for a voltage that no current reaches
_TAKEN, _LEAST_TAKEN = 120, 1e-6  # levels of current beside a row, down to that share of the greatest
_LEVELS = 3000  # of voltage, where strings lie side by side
_LOWEST_V = -1.0  # where those begin: below short circuit
_RowKey = tuple[tuple[Diode, ...], tuple[float, ...], Bypass | Turned | Bridge | None, tuple[int, ...]]


class Summed:
    """Panels at a rising grid of currents of one string; what was reckoned once is kept."""

    def __init__(self, currents: Array) -> None:
        if currents.ndim != 1 or currents.size < 3 or not np.all(np.diff(currents) > 0):
            raise ValueError("the currents of a grid rise from point to point, three of them or more")
        self.currents = currents
        self._most_a = float(np.abs(currents).max())
        self._cells: dict[tuple[Diode, bool], Array] = {}
        self._rows: dict[_RowKey, Array] = {}

    def panel_v(self, network: Network) -> Array:
        """Terminal voltage at so many times the grid's currents as there are strings. [V]

        A thousand, or minus as much, stands where no voltage drives that current.
        """
        strings = [self.string_v(string) for string in network.strings]
        together = strings[0] if len(strings) == 1 else side_by_side(self.currents, strings)
        return np.asarray(together - self.currents * len(strings) * network.lead_ohm)

    def string_v(self, string: String) -> Array:
        """Of one string. [V]"""
        rows = np.sum([self.row_v(row) for row in string.substrings], axis=0)
        if string.tail_ohm == np.inf:
            return np.where(self.currents == 0, rows, self.nothing_v())
        volts = rows - self.currents * string.tail_ohm
        if string.blocking is None:
            return np.asarray(volts)
        let_out = volts - _drop_v(string.blocking, self.currents)
        return np.asarray(np.where(self.currents < 0, _FAR_V, let_out))

    def nothing_v(self) -> Array:
        """Of a string, or of a row's cells, that carry nothing. [V]"""
        return np.asarray(-_FAR_V * np.sign(self.currents))

    def row_v(self, row: Substring) -> Array:
        """Of cells and what lies beside them. [V]"""
        key = (row.cells, row.joints_ohm, row.bypass, row.turned)  # a row's own hash is of its ends alone
        if key not in self._rows:
            self._rows[key] = beside(self.currents, self.stack_v(row), row.bypass)
        return self._rows[key]

    def stack_v(self, row: Substring) -> Array:
        """Of a row's cells and joints alone. [V]"""
        alike: dict[tuple[Diode, bool], int] = {}
        for place, cell in enumerate(row.cells):
            key = (cell, place in row.turned)
            alike[key] = alike.get(key, 0) + 1
        if np.inf in row.joints_ohm:
            return self.nothing_v()
        volts = np.sum([count * self.cell_v(*key) for key, count in alike.items()], axis=0)
        return np.asarray(np.clip(volts - self.currents * sum(row.joints_ohm), -_FAR_V, _FAR_V))

    def cell_v(self, cell: Diode, turned: bool) -> Array:
        """Of one cell. [V]"""
        key = (cell, turned)
        if key not in self._cells:
            amps = -self.currents if turned else self.currents
            volts = tabled_v(cell, amps, self._most_a) * (-1.0 if turned else 1.0)
            self._cells[key] = np.clip(volts, -_FAR_V, _FAR_V)
        return self._cells[key]


def open_v(currents: Array, volts: Array) -> float:
    """Voltage at no current, from the side on which current is given: behind a gap none flows back. [V]"""
    k = int(np.searchsorted(currents, 0.0))
    slope = (volts[k + 1] - volts[k]) / (currents[k + 1] - currents[k])
    return float(volts[k] - slope * currents[k])


def _drop_v(diode: Bypass, amperes: Array) -> Array:
    """Forward voltage of a diode. [V]"""
    flowing = np.maximum(amperes, 0.0)
    return np.asarray(diode.ideality_v * np.log1p(flowing / diode.saturation_a) + diode.series_ohm * flowing)


def beside(currents: Array, stack: Array, beside: Bypass | Turned | Bridge | None) -> Array:
    """Voltage of a row with what lies beside its cells, at the current through both. [V]

    The row's current is that of the cells and what is passed beside them, which rises as the cells' voltage
    falls: so both are told at levels of what is passed, and found between these. A diode passes one way only:
    where it blocks, the cells are alone.
    """
    most = _rounded(2 * float(np.abs(currents).max()))
    match beside:
        case None:
            return stack
        case Bridge(ohm):
            taken = _taken(most)
            both = np.concatenate([-taken[:0:-1], taken])
            return _shared(currents, stack, np.isfinite(stack), (both, -ohm * both))
        case Turned(diode):
            taken, drop = _passed(diode, most)
            return _shared(currents, stack, stack > 0, (-taken[::-1], drop[::-1]))
        case Bypass():
            taken, drop = _passed(beside, most)
            return _shared(currents, stack, stack < 0, (taken, -drop))


@lru_cache(maxsize=64)
def _passed(diode: Bypass, most_a: float) -> tuple[Array, Array]:
    """Levels of current through a diode, and its drop at each. [A, V]"""
    taken = _taken(most_a)
    return taken, _drop_v(diode, taken)


@lru_cache(maxsize=64)
def _taken(most_a: float) -> Array:
    """Levels of current beside a row."""
    return np.concatenate([[0.0], np.geomspace(_LEAST_TAKEN * most_a, most_a, _TAKEN)])


def _rounded(amperes: float) -> float:
    """Up to a power of 2, so that levels are shared."""
    return float(2.0 ** np.ceil(np.log2(amperes)))


def _shared(currents: Array, stack: Array, shares: NDArray[np.bool_], levels: tuple[Array, Array]) -> Array:
    """Voltage where cells and what lies beside them agree, at the currents at which they share.

    `levels` are rising currents beside the cells, and the row's voltage at each, falling.
    """
    taken, volts = levels
    cells = np.interp(-volts, -stack, currents)  # current of the cells at each level
    beside = np.interp(currents[shares], cells + taken, taken)
    found = stack.copy()
    found[shares] = np.interp(beside, taken, volts)
    return found


def side_by_side(currents: Array, strings: list[Array]) -> Array:
    """Voltage of strings in parallel, at so many times the currents of one. [V]"""
    top = max(open_v(currents, each) for each in strings)
    return shared_v(currents, [at_levels_a(currents, each, top) for each in strings], top)


def at_levels_a(currents: Array, volts: Array, top_v: float) -> Array:
    """Current of one string at levels of voltage from below short circuit up to `top_v`. [A]"""
    return np.asarray(np.interp(_levels_to(top_v), volts[::-1], currents[::-1]))


def shared_v(currents: Array, strings_a: list[Array], top_v: float) -> Array:
    """Voltage of strings in parallel whose currents are told at the levels up to `top_v`. [V]"""
    together = np.sum(strings_a, axis=0)
    return np.asarray(np.interp(currents * len(strings_a), together[::-1], _levels_to(top_v)[::-1]))


@lru_cache(maxsize=16)
def _levels_to(top_v: float) -> Array:
    return np.linspace(_LOWEST_V, top_v, _LEVELS)
