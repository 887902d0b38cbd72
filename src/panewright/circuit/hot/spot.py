"""The shade that heats a cell most, and how many watts that is.

A shaded cell under the current of lit ones is driven into reverse and takes in power. A little shade starves
a hard cell (one with a high shunt): it is hottest where the others are near their own maximum power, at a few
hundredths of shade. A soft cell under a bypass diode is hottest somewhere between, and without one where it
is dark. So nothing is assumed: the shade is looked for from none to `most_shade`, ends included.

Voltage falls with current in every part of a panel. So at a given shade a higher terminal voltage pulls a
cell's current down and its voltage up, and while the cell is reversed both make it cooler. Of all voltages
from zero up, short circuit is therefore the worst; maximum power and a battery are milder, and usual.

[B] J. W. Bishop, Computer simulation of the effects of electrical mismatches in photovoltaic cell
    interconnection circuits, Solar Cells 25, 1988, p. 73.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

import numpy as np

from panewright.cell.damage import Shaded
from panewright.cell.root import Array
from panewright.circuit.damage import Fault, damaged
from panewright.circuit.hot.around import around
from panewright.circuit.hot.highest import highest
from panewright.circuit.hot.lit import heat_of
from panewright.circuit.hot.shades import Shades
from panewright.circuit.inside import CellState, cell_states
from panewright.circuit.maxima import key_points, short_circuit_a
from panewright.circuit.network import Network, Substring
from panewright.circuit.place import CellAt, all_cells, within
from panewright.circuit.solve import current_a

Working = Literal["short circuit", "maximum power"] | float  #: a number is a terminal voltage held [V]

_NARROW = 1e-6  #: a string's current that moves less than this share is no measure of the shade


_MOST_V = 1e6  # no panel is held higher


@dataclass(frozen=True, slots=True)
class HotSpot:
    """A cell under the shade that heats it most."""

    place: CellAt
    at: Working
    terminal_v: float  #: of the panel
    shade: float  #: share of the cell's light that is missing
    voltage_v: float  #: of the cell
    current_a: float  #: of the cell
    alike: int = 1  #: cells of the panel for which all this is the same

    @property
    def absorbed_w(self) -> float:
        """Power the cell takes in at its terminals. [W]"""
        return -self.voltage_v * self.current_a


def hottest(
    network: Network, place: CellAt, at: Working = "short circuit", most_shade: float = 1.0
) -> HotSpot:
    """The shade from none to `most_shade` at which a cell takes in most, the panel working as said."""
    if not 0 <= most_shade <= 1:
        raise ValueError(f"shade ends at a share from 0 to 1, got {most_shade:g}: write 1 for the whole cell")
    if at == "maximum power":
        return _spot(network, place, at, _scanned(network, place, at, most_shade))
    terminal_v = _held_v(at)
    found = _on_the_line(network, place, terminal_v, most_shade)
    if found is None:
        return _spot(network, place, at, _scanned(network, place, at, most_shade))
    return HotSpot(place, at, terminal_v, *found)


def hot_spots(
    network: Network, at: Working = "short circuit", most_shade: float = 1.0
) -> tuple[HotSpot, ...]:
    """Every kind of place in a panel under its worst shade, the hottest first."""
    spots = [
        replace(hottest(network, places[0], at, most_shade), alike=len(places)) for places in kinds(network)
    ]
    return tuple(sorted(spots, key=lambda spot: -spot.absorbed_w))


def kinds(network: Network) -> tuple[tuple[CellAt, ...], ...]:
    """All cells, those together to which the panel does the same.

    The order in a string makes no difference, so equal cells under equal diodes are alike.
    """
    found: dict[Hashable, list[CellAt]] = {}
    for place in all_cells(network):
        found.setdefault(_kind(network, place), []).append(place)
    return tuple(tuple(places) for places in found.values())


def shaded(network: Network, place: CellAt, shade: float) -> Network:
    """The panel with a share of one cell's light gone."""
    return damaged(network, Fault(Shaded(shade), place))


def _kind(network: Network, place: CellAt) -> Hashable:
    k, number = within(network, place)
    string = network.strings[place.string]
    row = Counter(_mix(substring) for substring in string.substrings)
    own = string.substrings[k]
    line = (frozenset(row.items()), string.tail_ohm, string.blocking)
    return line, _mix(own), own.cells[number], number in own.turned


def _mix(substring: Substring) -> Hashable:
    """What of a substring makes a difference to the rest."""
    cells = Counter((cell, k in substring.turned) for k, cell in enumerate(substring.cells))
    return frozenset(cells.items()), round(sum(substring.joints_ohm), 12), substring.bypass


def _on_the_line(
    network: Network, place: CellAt, terminal_v: float, most_shade: float
) -> tuple[float, float, float] | None:
    """Shade, voltage and current of the worst shade, along the line of all shades.

    None where the string's current does not tell the shade: a dark cell, a broken or a saturated string.
    """
    line = around(network, place)
    if line.cell.light_a == 0 or not line.whole:
        return None
    lit = _string_a(network, place.string, terminal_v)
    dark = _string_a(shaded(network, place, most_shade), place.string, terminal_v)
    if not lit - dark > _NARROW * abs(lit):
        return None
    hot_a = highest(heat_of(line, terminal_v), dark, lit)
    found = line.at(terminal_v, np.array([hot_a]))
    shade = most_shade if hot_a == dark else float(np.clip(found.shade[0], 0.0, most_shade))
    return shade, float(found.voltage_v[0]), float(found.current_a[0])


@lru_cache(maxsize=8)
def _string_a(network: Network, string: int, terminal_v: float) -> float:
    """Current of one string; the lit panel's is asked for again and again. [A]"""
    whole = current_a(network, terminal_v) if terminal_v else short_circuit_a(network)
    if len(network.strings) == 1:
        return whole
    bus = terminal_v + whole * network.lead_ohm
    return current_a(Network((network.strings[string],)), bus)


def _scanned(network: Network, place: CellAt, at: Working, most_shade: float) -> float:
    """The shade that heats most, by trying. The heat is level at its top, so this is close enough."""
    if around(network, place).cell.light_a == 0:
        return 0.0

    def heats_w(shades: Array) -> Array:
        tried = Shades(network, place, shades)
        volts = tried.peaks_v() if at == "maximum power" else np.array(_held_v(at))
        return tried.held(volts).absorbed_w

    return highest(heats_w, 0.0, most_shade, fine=1e-5)


def _spot(network: Network, place: CellAt, at: Working, shade: float) -> HotSpot:
    """A cell under one shade."""
    panel = shaded(network, place, shade)
    terminal_v = key_points(panel).vmp_v if at == "maximum power" else _held_v(at)
    state = _state(panel, place, terminal_v)
    return HotSpot(place, at, terminal_v, shade, state.voltage_v, state.current_a)


def _held_v(at: Working) -> float:
    if at == "short circuit":
        return 0.0
    if isinstance(at, str):
        raise ValueError(f"a panel works at 'short circuit', 'maximum power' or a voltage, got {at!r}")
    if not abs(at) <= _MOST_V:
        raise ValueError(f"a panel is held at a voltage within {_MOST_V:g} V, got {at}")
    return float(at)


def _state(network: Network, place: CellAt, terminal_v: float) -> CellState:
    states = cell_states(network, terminal_v)
    return next(state for state in states if (state.string, state.number) == (place.string, place.number))
