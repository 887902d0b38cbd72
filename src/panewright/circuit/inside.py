"""What every cell of a panel goes through while the panel is held at one voltage.

A weak cell under the current of strong ones is driven into reverse and heats: what it absorbs at its
terminals, and how near it comes to breakdown, decide whether it needs a bypass diode over fewer cells.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.cell.curve import voltage_and_ohm
from panewright.cell.diodes import Diodes
from panewright.circuit.network import Network, Substring
from panewright.circuit.rows import shared_v, strings_a
from panewright.circuit.solve import terminal_a
from panewright.circuit.wiring import wire


@dataclass(frozen=True, slots=True)
class CellState:
    """One cell at work."""

    string: int  #: 0 for the first string
    number: int  #: along its string from the minus end, 1 for the first
    voltage_v: float  #: at its own terminals
    current_a: float

    @property
    def absorbed_w(self) -> float:
        """Power the cell takes in; negative while it gives. [W]"""
        return -self.voltage_v * self.current_a


def cell_states(network: Network, voltage: float = 0.0) -> tuple[CellState, ...]:
    """Every cell of a panel held at a terminal voltage, short circuit if none is given."""
    whole = float(terminal_a(wire(network), np.full((1, 1), voltage))[0, 0])
    bus = np.full((1, 1), voltage + whole * network.lead_ohm)
    return tuple(
        state
        for place, string in enumerate(network.strings)
        for state in _string_states(place, string, float(strings_a(wire(Network((string,))), bus)[0, 0]))
    )


def _string_states(place: int, string: tuple[Substring, ...], current: float) -> list[CellState]:
    states: list[CellState] = []
    for substring in string:
        own = _cells_a(substring, current)
        volt, _ = voltage_and_ohm(Diodes.of(substring.cells), np.asarray(own))
        first = len(states) + 1
        states += [CellState(place, first + k, float(v), own) for k, v in enumerate(volt)]
    return states


def _cells_a(substring: Substring, current: float) -> float:
    """Current of a substring's cells: what its bypass diode does not take. [A]"""
    if substring.bypass is None:
        return current
    part = wire(Network(((substring,),))).substring(0)
    return current - float(shared_v(part, np.array([current]))[2][0])
