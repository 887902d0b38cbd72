"""A shading strip over some cells, or a cover over one: the panel's current with it over that without it.

Or the strip is moved from some cells to others for the second reading. Where it takes more than the weak
cell lacks, w, the first current is 1 - w of the second if the weak cell lies under the first part, and
1 / (1 - w) if it lies under the other: twice as far apart as with a strip that is laid on and taken off.

Over the weak cell of its string a strip takes what that cell still gave; over sound cells it takes nothing,
as long as it leaves them more than the weak one has. But at short circuit a weak cell that breaks down
softly passes what the others give, and where a bypass diode conducts its row is not asked at all: so the
current is reckoned at many voltages, and the one that tells most is proposed. How far the panel's own
voltages may be off what is foretold, by what went in and by the heat, moves both currents and stands in the
ratio's error.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.bench.fault.place.belief import Spot, State
from panewright.bench.fault.place.setting import Meters, Setting
from panewright.bench.fault.stacked import At, Stacked
from panewright.cell.damage import Shaded
from panewright.cell.root import Array
from panewright.circuit.damage import Fault, damaged
from panewright.circuit.network import Network
from panewright.circuit.place import CellAt, within

HELD = 25  # voltages, from short circuit on
_LEAST = 0.02  # of Isc: smaller currents have no ratio to tell
_MODEL = 0.003  # how far the circuit itself may be off, as a share


@dataclass(frozen=True, slots=True)
class Lines:
    """Current at rising voltages, then through resistors, of every spot at every strength."""

    volts: Array
    ohms: tuple[float, ...]
    amps: Array  #: (spots, strengths, volts and ohms)
    off: float = 0.0  #: share of its voltage by which the panel may be off what is foretold

    def at(self, setting: Setting) -> Array:
        """Current under one load: arrays (spots, strengths). [A]"""
        return along(self, self.amps, setting)


def along(lines: Lines, figures: Array, setting: Setting) -> Array:
    """Figures of all loads at that of a setting, straight between voltages."""
    if setting.load_ohm:
        return np.asarray(figures[..., lines.volts.size + lines.ohms.index(setting.load_ohm)])
    k = int(np.clip(np.searchsorted(lines.volts, setting.at_v), 1, lines.volts.size - 1))
    part = np.clip((setting.at_v - lines.volts[k - 1]) / (lines.volts[k] - lines.volts[k - 1]), 0.0, 1.0)
    return np.asarray((1 - part) * figures[..., k - 1] + part * figures[..., k])


def lines(state: State, cells: tuple[CellAt, ...], depth: float, ohms: tuple[float, ...] = ()) -> Lines:
    """With a strip over those cells; without any, of the panel in plain light."""
    foretold = state.foretold
    network = damaged(foretold.network, *(Fault(Shaded(1.0, depth), cell) for cell in cells))
    stacked = Stacked(network, foretold.grid, foretold.scale)
    volts = np.linspace(0.0, 0.96 * foretold.voc_v, HELD)
    stand_in = Alikes(foretold.network, frozenset(cells))
    kept: dict[tuple[At, ...], Array] = {}
    rows = [
        [_amps(stacked, stand_in.wrong(spot, strength), (volts, ohms), kept) for strength in spot.strengths]
        for spot in state.spots
    ]
    return Lines(volts, ohms, np.array(rows), _off(state))


def ratios(plain: Lines, shaded: Lines, meters: Meters) -> tuple[Array, Array, Array]:
    """Current with the strip over current without it or with it elsewhere; what errs anew, what alike."""
    least = _LEAST * plain.amps.max()
    under, over = np.maximum(plain.amps, least), np.maximum(shaded.amps, 0.0)
    ratio = over / under
    share = np.hypot(meters.current, meters.steady) * np.sqrt(2)
    by_v = np.zeros_like(ratio)  # a resistor stays what it is; a held voltage errs
    with_it, without = (
        np.gradient(each.amps[..., :HELD], plain.volts, axis=-1) * plain.volts for each in (shaded, plain)
    )
    by_v[..., :HELD] = meters.voltage * np.hypot(with_it, without) / under[..., :HELD]
    own = np.sqrt((share * ratio) ** 2 + by_v**2 + (meters.current * least / under) ** 2)
    moved = plain.off * (with_it - ratio[..., :HELD] * without) / under[..., :HELD]
    return ratio, own, np.hypot(_MODEL * ratio, _everywhere(plain, moved))


def _everywhere(plain: Lines, held: Array) -> Array:
    """What is known at held voltages, at resistors too: there at the voltage that they would have."""
    middle = plain.amps[..., HELD:].mean(axis=(0, 1)) * np.array(plain.ohms)
    spots = held.reshape(-1, HELD)
    loads = np.array([np.interp(middle, plain.volts, each) for each in spots])
    return np.concatenate([held, loads.reshape(*held.shape[:-1], middle.size)], axis=-1)


def _off(state: State) -> float:
    """By the panel's own Voc and resistance, as far as they are foretold, and by the heat. [share]"""
    foretold, common = state.foretold, state.common
    warmer = foretold.panel(foretold.irradiance_w_m2, foretold.cell_c + 1.0)
    per_k = Stacked(warmer, foretold.grid, foretold.scale).open_v(()) / foretold.voc_v - 1
    return float(np.sqrt(common.voc**2 + common.series**2 + (per_k * common.heat_k) ** 2))


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


def _amps(
    stacked: Stacked,
    wrong: tuple[At, ...],
    loads: tuple[Array, tuple[float, ...]],
    kept: dict[tuple[At, ...], Array],
) -> Array:
    if wrong not in kept:
        terminal = stacked.panel_v(wrong)
        amps = stacked.currents * len(stacked.network.strings)
        through = [float(np.interp(0.0, amps * ohm - terminal, amps)) for ohm in loads[1]]
        kept[wrong] = np.append(np.interp(-loads[0], -terminal, amps), through)
    return kept[wrong]
