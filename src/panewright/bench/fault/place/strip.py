"""A shading strip over some cells, or a cover over one: the panel's current with it over that without it.

Over the weak cell of its string a strip takes what that cell still gave; over sound cells it takes nothing,
as long as it leaves them more than the weak one has. But at short circuit a weak cell that breaks down
softly passes what the others give, and where a bypass diode conducts its row is not asked at all: so the
current is reckoned at many voltages, and the one that tells most is proposed.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.bench.fault.place.belief import Spot, State
from panewright.bench.fault.place.setting import Meters
from panewright.bench.fault.stacked import At, Stacked
from panewright.cell.damage import Shaded
from panewright.cell.root import Array
from panewright.circuit.damage import Fault, damaged
from panewright.circuit.network import Network
from panewright.circuit.place import CellAt, within

_LEAST = 0.02  # of Isc: smaller currents have no ratio to tell
_MODEL = 0.003  # how far the circuit itself may be off, as a share


@dataclass(frozen=True, slots=True)
class Lines:
    """Current at rising voltages of every spot at every strength, arrays (spots, strengths, volts)."""

    volts: Array
    amps: Array


def lines(state: State, cells: tuple[CellAt, ...], depth: float) -> Lines:
    """With a strip over those cells; without any, of the panel in plain light."""
    foretold = state.foretold
    network = damaged(foretold.network, *(Fault(Shaded(1.0, depth), cell) for cell in cells))
    stacked = Stacked(network, foretold.grid, foretold.scale)
    volts = np.linspace(0.0, 0.96 * foretold.voc_v, 25)
    stand_in = Alikes(foretold.network, frozenset(cells))
    kept: dict[tuple[At, ...], Array] = {}
    rows = [
        [_amps(stacked, stand_in.wrong(spot, strength), volts, kept) for strength in spot.strengths]
        for spot in state.spots
    ]
    return Lines(volts, np.array(rows))


def ratios(plain: Lines, shaded: Lines, meters: Meters) -> tuple[Array, Array]:
    """Current with the strip over current without it, and its standard deviation."""
    least = _LEAST * plain.amps.max()
    under, over = np.maximum(plain.amps, least), np.maximum(shaded.amps, 0.0)
    ratio = over / under
    share = np.hypot(np.hypot(meters.current, meters.steady) * np.sqrt(2), _MODEL)
    slopes = (
        np.gradient(lines.amps, plain.volts, axis=-1) * meters.voltage * plain.volts
        for lines in (plain, shaded)
    )
    by_v = np.hypot(*slopes) / under
    return ratio, np.sqrt((share * ratio) ** 2 + by_v**2 + (meters.current * least / under) ** 2)


class Alikes:
    """Cells of a row are alike where the strip lies on both or on neither: one stands for all."""

    def __init__(self, network: Network, shaded: frozenset[CellAt] = frozenset()) -> None:
        self._network, self._shaded = network, shaded
        self._first: dict[tuple[int, int, bool], CellAt] = {}

    def wrong(self, spot: Spot, strength: float) -> tuple[At, ...]:
        """What is wrong with the circuit; nothing where all of it is dimmed, as a ratio does not show it."""
        if spot.kind is None or spot.place is None:
            return ()
        if not isinstance(spot.place, CellAt):
            return ((spot.kind.key, strength, spot.place),)
        row, _ = within(self._network, spot.place)
        sort = (spot.place.string, row, spot.place in self._shaded)
        return ((spot.kind.key, strength, self._first.setdefault(sort, spot.place)),)


def _amps(stacked: Stacked, wrong: tuple[At, ...], volts: Array, kept: dict[tuple[At, ...], Array]) -> Array:
    if wrong not in kept:
        terminal = stacked.panel_v(wrong)
        amps = stacked.currents * len(stacked.network.strings)
        kept[wrong] = np.interp(-volts, -terminal, amps)
    return kept[wrong]
