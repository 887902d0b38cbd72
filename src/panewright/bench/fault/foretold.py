"""Curves of a panel with things wrong, in the light and heat that were read, and how they move.

Each is a polyline of voltages at shares of the panel's current. Light and heat move it: at the same share
of the current, with the share itself growing with the light and, a little, with the heat, a voltage is
straight in both over the few per cent and kelvins that a reading may be off. So three curves tell it all:
as read, a little brighter, a little warmer.

A leak that all cells share takes current at a given voltage, and is straight in the leak there: forward, and
backward where one cell holds the rest back. Voltages at a given current are not, for a flat curve moves by
volts. So a fourth curve, of more leak, tells by how much less current flows at every node's voltage. It
is told on fewer currents: what they blur is the same in the curve beside it. What passes a cell that holds
the rest back lifts the curve to that of the sound panel and no further: towards that it fades.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from panewright.bench.fault.kinds import Kind, Scale, broken
from panewright.bench.fault.leak import leaking
from panewright.bench.fault.readings import Common
from panewright.bench.fault.stacked import At, Stacked, sorted_out
from panewright.bench.predicted import STC_C, STC_W_M2
from panewright.cell.root import Array
from panewright.circuit.damage import Fault, damaged
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Network
from panewright.circuit.place import CellAt, Place
from panewright.circuit.summed import Summed

Panel = Callable[[float, float], Network]  #: the panel as built, at W/m2 and cells' degC

_BRIGHTER, _WARMER_K = 0.01, 1.0
_LEAKIER, _SPARSE = 2.5, 3  # times the leak, on one in so many of the grid's currents
_ROOM = 1.02  # times what so much leak lifts: the least that more of it could
_NODES = 100
_STEPS = 1100
_BELOW_V, _ABOVE_V, _REACH = -0.02, 1.1, 1.06  # of Voc and Isc: as far as curves are kept
_BENT = np.array([1e-5, 1e-4, 6e-4, 2e-3])  # of Isc: nodes where behind a gap a diode's drop is a logarithm
_NONE, _NEAR = (1e-6, 8e-4), 8  # of Isc, and how many currents between these
_BACK = 0.03  # of Isc: how far past Voc
_LEAP = 0.1  # of Voc; at a millionth of Isc a panel without a gap moves by nothing


@dataclass(frozen=True, slots=True)
class Wrong:
    """What is supposed to be wrong: kinds, places, and how strong each is."""

    kinds: tuple[Kind, ...] = ()
    places: tuple[Place | None, ...] = ()
    strengths: tuple[float, ...] = ()

    def and_also(self, other: Wrong) -> Wrong:
        """Both together."""
        return Wrong(self.kinds + other.kinds, self.places + other.places, self.strengths + other.strengths)


@dataclass(frozen=True, slots=True)
class Curves:
    """Arrays (curves, nodes), voltage falling and current rising; `moved_v` (curves, nodes, ways to move).

    The last way is the cells' leak: it moves currents at the nodes' voltages, and no volts.
    """

    voltage_v: Array
    current_a: Array
    moved_v: Array
    grown: Array  #: (ways,): the share by which every current grows with each
    leaked_a: Array  #: (curves, nodes): growth of the current with the leak, in parts of the leak foretold
    faded: Array  #: (curves, nodes): that over the most that the leak can lift, 0 where it lifts nothing

    def leaking_a(self, error: Array) -> Array:
        """Growth of the current with so many e-foldings (curves, 1) more leak. [A]"""
        more = np.expm1(error)
        return np.asarray(self.leaked_a * more / np.sqrt(self._left(more)))

    def leaking_slope_a(self, error: Array) -> Array:
        """How that changes with the e-foldings. [A]"""
        left = self._left(np.expm1(error))
        return np.asarray(self.leaked_a * np.exp(error) / (left * np.sqrt(left)))

    def _left(self, more: Array) -> Array:
        return np.asarray(1 + (self.faded * np.maximum(more, 0.0)) ** 2)


class Foretold:
    """Curves of one panel at one reading of light and heat."""

    def __init__(self, panel: Panel, irradiance_w_m2: float, cell_c: float) -> None:
        self.panel, self.irradiance_w_m2, self.cell_c = panel, irradiance_w_m2, cell_c
        self._stacked: dict[float, tuple[Stacked, ...]] = {}
        self._sound: dict[float, Array] = {}  # volts of the sound panel in the light that is left
        self.network = panel(irradiance_w_m2, cell_c)
        self.scale, self.isc_a, self.voc_v = _scale(self.network)
        grid = _levels() * self.isc_a / len(self.network.strings)
        if len(self.network.strings) > 1:
            grid = np.concatenate([np.linspace(-2.0, -_BACK, _STEPS // 4)[:-1] * -grid[0] / _BACK, grid])
        self._heat_grows = self._per_kelvin()
        grown = (1.0, 1.0 + _BRIGHTER, 1.0 + self._heat_grows * _WARMER_K)
        self._grids = (*(grid * each for each in grown), grid[::_SPARSE])
        self.grown = np.array(
            [1.0, self._heat_grows, 0.0, 1.0, 0.0, 0.0]
        )  # as `deviations`, but for the leak

    @property
    def grid(self) -> Array:
        """Rising currents of one string. [A]"""
        return self._grids[0]

    def curves(self, wrongs: Iterable[Wrong]) -> Curves:
        """A polyline for each."""
        made = [self._curve(each) for each in wrongs]
        volts, amps, moved, leaked, room = (np.array([each[k] for each in made]) for k in range(5))
        return Curves(volts, amps, moved, self.grown, *_fading(leaked, room))

    def network_with(self, wrong: Wrong) -> Network:
        """The panel with that wrong, in the light and heat read."""
        return self._with(wrong, self.irradiance_w_m2, self.cell_c)

    def stc_with(self, wrong: Wrong = Wrong(), *before: Fault) -> Network:
        """The panel with that wrong, at STC; `before` is done to it first, such as a cell exchanged."""
        return self._with(wrong, STC_W_M2, STC_C, *before)

    def _with(self, wrong: Wrong, irradiance_w_m2: float, cell_c: float, *before: Fault) -> Network:
        network = damaged(self.panel(irradiance_w_m2 * (1 - _dimmed(wrong)), cell_c), *before)
        things = zip(wrong.kinds, wrong.places, wrong.strengths, strict=True)
        for kind, place, strength in sorted(things, key=_late):
            if kind.key != "dimmed":
                network = broken(network, kind, strength, place, self.scale)
        return network

    def cost_share(self, wrong: Wrong) -> float:
        """Share of the greatest power that it takes, in the light and heat read."""
        amps = self._grids[0] * len(self.network.strings)
        sound, left = (
            float((each.panel_v(at) * amps).max())
            for each, at in ((self._at(0.0)[0], ()), (self._at(_dimmed(wrong))[0], _places(wrong)))
        )
        return max(1 - left / sound, 0.0)

    @cached_property
    def stc_w(self) -> float:
        """Greatest power of the sound panel at STC. [W]"""
        return key_points(self.stc_with()).power_w

    def _curve(self, wrong: Wrong) -> tuple[Array, Array, Array, Array, Array]:
        dim = _dimmed(wrong)
        places = sorted_out(self.network, _places(wrong))
        *lit, leaky = self._at(dim)
        strings = [each.strings_v(places) for each in lit]
        read, bright, warm = (each.joined_v(mine) for each, mine in zip(lit, strings, strict=True))
        amps = self._grids[0] * len(self.network.strings)
        nodes = _nodes(read, amps, self.voc_v, self.isc_a)
        volts, by_light, by_heat = (np.interp(nodes, amps, each) for each in (read, bright, warm))
        flat = np.zeros_like(volts)
        moved = [
            (by_light - volts) / _BRIGHTER,
            (by_heat - volts) / _WARMER_K,
            volts,
            flat,
            volts,
            -nodes * self.scale.panel_ohm,
        ]
        bus_v = volts + nodes * self.network.lead_ohm
        leaked = self._leaked_a(bus_v, strings[0], leaky.strings_v(places))
        room = np.interp(-volts, -self._sound_v(dim), amps) - nodes
        return volts, nodes, np.stack(moved, axis=-1), leaked, room

    def _leaked_a(self, bus_v: Array, read: Sequence[Array], leaky: Sequence[Array]) -> Array:
        """Growth of the current at a voltage before the lead were all cells to leak `_LEAKIER` times as much.

        The lead's own volts, which the leak takes from, are left out: some hundredths of it.
        """
        amps, low = self._grids[3], -bus_v
        grown = [
            np.interp(low, -more, amps) - np.interp(low, -was[::_SPARSE], amps)
            for more, was in zip(leaky, read, strict=True)
        ]
        return np.asarray(np.sum(grown, axis=0))

    def _sound_v(self, dim: float) -> Array:
        if dim not in self._sound:
            self._sound[dim] = self._at(dim)[0].panel_v(())
        return self._sound[dim]

    def _at(self, dim: float) -> tuple[Stacked, ...]:
        """The sound panel in the light that is left: as read, brighter, warmer, and with leakier cells."""
        if dim not in self._stacked:
            light = self.irradiance_w_m2 * (1 - dim)
            as_read = self.panel(light, self.cell_c)
            networks = (
                as_read,
                self.panel(light * (1 + _BRIGHTER), self.cell_c),
                self.panel(light, self.cell_c + _WARMER_K),
                leaking(as_read, _LEAKIER),
            )
            self._stacked[dim] = tuple(
                Stacked(network, grid, self.scale)
                for network, grid in zip(networks, self._grids, strict=True)
            )
        return self._stacked[dim]

    def _per_kelvin(self) -> float:
        """Growth of the light's current with heat. [1/K]"""
        as_read, warm = self.network, self.panel(self.irradiance_w_m2, self.cell_c + _WARMER_K)
        lights = [
            sum(cell.light_a for string in each.strings for row in string.substrings for cell in row.cells)
            for each in (as_read, warm)
        ]
        return (lights[1] / lights[0] - 1) / _WARMER_K


def _fading(leaked: Array, room: Array) -> tuple[Array, Array]:
    """Growth with more leak at its beginning, in parts of the leak foretold, and by how much it fades.

    From the growth x at `_LEAKIER` times the leak, and the most m that it can come to: a straight growth k
    fades as k / sqrt(1 + (k / m)^2).
    """
    more, most = _LEAKIER - 1, np.maximum(room, _ROOM * leaked)
    part = np.where((leaked > 0) & (room > 0), leaked / np.where(most > 0, most, 1.0), 0.0)
    begins = leaked / (more * np.sqrt(1 - part**2))
    return begins, np.where(part > 0, begins / np.where(most > 0, most, 1.0), 0.0)


def _late(thing: tuple[Kind, Place | None, float]) -> tuple[bool, int]:
    """Cells that are left out come last, the highest first: those behind one move up."""
    kind, place, _ = thing
    return kind.key == "cell gone", -place.number if isinstance(place, CellAt) else 0


def _dimmed(wrong: Wrong) -> float:
    """Share of the light that is gone from the whole panel."""
    left = 1.0
    for kind, strength in zip(wrong.kinds, wrong.strengths, strict=True):
        if kind.key == "dimmed":
            left *= 1 - strength
    return 1 - left


def _places(wrong: Wrong) -> list[At]:
    """What is wrong with the circuit."""
    parts = zip(wrong.kinds, wrong.strengths, wrong.places, strict=True)
    return [(kind.key, strength, place) for kind, strength, place in parts if place is not None]


def deviations(common: Common) -> Array:
    """Standard deviations in the order in which curves are moved."""
    ways = (common.light, common.heat_k, common.voltage, common.current, common.voc, common.series)
    return np.array((*ways, common.shunt))


def _scale(network: Network) -> tuple[Scale, float, float]:
    """In what strengths are told, with Isc and Voc. [A, V]"""
    strings = network.strings
    isc = sum(max(cell.light_a for row in string.substrings for cell in row.cells) for string in strings)
    grid = np.linspace(-_BACK, _REACH, 201) * isc / len(strings)
    voc = float(np.interp(0.0, grid, Summed(grid).panel_v(network)))
    cells = sum(len(row.cells) for row in strings[0].substrings)
    return Scale(voc / isc, voc / cells / (isc / len(strings))), isc, voc


def _levels() -> Array:
    """Currents in parts of Isc: none, and close about it, where a bypass diode's drop is a logarithm."""
    near = np.geomspace(*_NONE, _NEAR)
    return np.unique(np.concatenate([np.linspace(-_BACK, _REACH, _STEPS), -near, [0.0], near]))


def _nodes(volts: Array, amps: Array, voc_v: float, isc_a: float) -> Array:
    """Currents at even steps along the curve, from a little past Voc to a little past short circuit.

    The ends lie between two currents of the grid, where that voltage is: volts fall steeply there. One lies
    at Voc itself. Behind a gap nothing flows back: there the curve begins at Voc, for the upright line at no
    current, along which any voltage may be forced on it, is no place where the panel itself is ever read.
    """
    low, high = _BELOW_V * voc_v, _ABOVE_V * voc_v
    fallen = -volts
    first, past = np.searchsorted(fallen, -high, "right"), np.searchsorted(fallen, -low)
    ends = np.interp((-high, -low), fallen, amps)
    bent, begin_v, begin_a = _BENT[:0], [min(high, volts[0])], ends[:1]
    if _blocked(volts, amps, voc_v):
        first = max(first, np.searchsorted(amps, 0.0))
        bent, begin_v, begin_a = _BENT * isc_a, [], ends[:0]
    v = np.concatenate([begin_v, volts[first:past], [low]])
    i = np.concatenate([begin_a, amps[first:past], ends[1:]])
    across, up = (v[1:] - v[:-1]) / voc_v, (i[1:] - i[:-1]) / isc_a
    along = np.concatenate([[0.0], np.cumsum(np.sqrt(across * across + up * up))])
    found = np.asarray(np.interp(np.linspace(0.0, along[-1], _NODES - bent.size), along, i))
    found[np.searchsorted(found, 0.0, side="right") - 1] = 0.0
    return np.sort(np.concatenate([found, bent]))


def _blocked(volts: Array, amps: Array, voc_v: float) -> bool:
    """Whether no current flows back: volts leap up at the least of it."""
    none = int(np.searchsorted(amps, 0.0))
    return none > 0 and bool(volts[none - 1] - volts[none] > _LEAP * voc_v)
