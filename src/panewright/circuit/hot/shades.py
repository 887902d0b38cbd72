"""One panel under many shades of one of its cells."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from panewright.cell.root import Array
from panewright.circuit.inside import settled
from panewright.circuit.network import Network
from panewright.circuit.place import CellAt, within
from panewright.circuit.solver.panel import Panel

_MARK = 1e-9  # of the cell's light: so that it is reckoned apart from its equals
_LEVEL = 1e-9  # of the current: how near to the top of the power


@dataclass(frozen=True, slots=True)
class Shades:
    """A panel, one of its cells, and what shades it is put under."""

    network: Network
    place: CellAt
    shades: Array  #: shares of the cell's light that are missing

    def peaks_v(self) -> Array:
        """Terminal voltage at which the panel gives most, under each shade. [V]"""
        return np.array([_peak_v(panel) for panel, _ in self._panels()])

    def held(self, terminal_v: Array) -> Shaded:
        """The cell and its string under each shade, the panel held at a voltage."""
        volts = np.broadcast_to(terminal_v, self.shades.shape).tolist()
        found = [self._held(panel, c, volt) for (panel, c), volt in zip(self._panels(), volts, strict=True)]
        return Shaded(*(np.array(column) for column in zip(*found, strict=True)))

    def _held(self, panel: Panel, c: int, volt: float) -> tuple[float, float, float]:
        bus, _ = panel.held(volt)
        s = panel.laid.string[self.place.string]
        low, high, own = settled(panel, s, bus)[c]
        return panel.hand.near_a[s], 0.5 * (low + high), own

    def _panels(self) -> Iterator[tuple[Panel, int]]:
        """The panel under one shade after the other, and the column of its cell."""
        marked, light = self._marked()
        panel = Panel.of(marked)
        c = panel.laid.column[self._before() + self.place.number - 1]
        columns = list(panel.laid.cells.light)
        laid = replace(panel, laid=panel.laid._replace(cells=panel.laid.cells._replace(light=columns)))
        for shade in self.shades.tolist():
            columns[c] = light * (1.0 - shade)
            yield laid, c

    def _marked(self) -> tuple[Network, float]:
        """The panel with its cell told from its equals, and that cell's light."""
        k, number = within(self.network, self.place)
        string = self.network.strings[self.place.string]
        part = string.substrings[k]
        cell = part.cells[number]
        other = replace(cell, light_a=cell.light_a * (1 - _MARK) + _MARK)
        cells = (*part.cells[:number], other, *part.cells[number + 1 :])
        parts = (*string.substrings[:k], replace(part, cells=cells), *string.substrings[k + 1 :])
        strings = list(self.network.strings)
        strings[self.place.string] = replace(string, substrings=parts)
        return replace(self.network, strings=tuple(strings)), cell.light_a

    def _before(self) -> int:
        """Cells of the strings before that of the place."""
        before = self.network.strings[: self.place.string]
        return sum(len(part.cells) for string in before for part in string.substrings)


@dataclass(frozen=True, slots=True)
class Shaded:
    """One cell under each shade."""

    string_a: Array  #: current of its string
    voltage_v: Array
    current_a: Array

    @property
    def absorbed_w(self) -> Array:
        """Power the cell takes in. [W]"""
        return -self.voltage_v * self.current_a


def _peak_v(panel: Panel) -> float:
    """Terminal voltage of greatest power. [V]"""
    pool, best = panel.greatest(_LEVEL)
    return float(pool.volt[best])
