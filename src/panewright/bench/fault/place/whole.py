"""The whole panel in other light: open in dull light, or in the dark with a current pushed through.

In dull light a shunted cell takes its own current and gives no volts; in the dark nothing of light or shade
shows, and a resistance stands alone. Neither tells the place within a row; both part kinds.
"""

from __future__ import annotations

import numpy as np

from panewright.bench.fault.place.belief import State
from panewright.bench.fault.place.setting import Meters
from panewright.bench.fault.place.strip import Alikes
from panewright.bench.fault.stacked import At, Stacked
from panewright.cell.root import Array

DULL_W_M2 = 60.0  #: a bright room, or a sky heavily clouded; common practice
DARK_PART = 0.5  #: of Isc, pushed in
SUPPLY_PART = 2.0  #: of Voc: as far as the supply goes; behind a gap it stays there
_DARK_REACH = np.linspace(-1.2, 0.03, 600)
_WARMER_K, _BRIGHTER = 1.0, 0.02


def dull_v(state: State, meters: Meters) -> tuple[Array, Array]:
    """Open voltage in dull light, and its standard deviation, arrays (spots, strengths). [V]"""
    foretold, light = state.foretold, DULL_W_M2

    def stacked(light_w_m2: float, warmer_k: float) -> Stacked:
        network = foretold.panel(light_w_m2, foretold.cell_c + warmer_k)
        return Stacked(network, foretold.grid * light_w_m2 / foretold.irradiance_w_m2, foretold.scale)

    mean = _each_v(state, stacked(light, 0.0), 0.0)
    sound = _volt(stacked(light, 0.0), 0.0)
    by_heat = (_volt(stacked(light, _WARMER_K), 0.0) - sound) / _WARMER_K * meters.heat_k
    by_light = (_volt(stacked(light * (1 + _BRIGHTER), 0.0), 0.0) - sound) / _BRIGHTER * meters.dull
    return mean, _spread(mean, meters, by_heat, by_light)


def dark_v(state: State, amps: float, meters: Meters) -> tuple[Array, Array]:
    """Voltage in the dark with a current pushed in, and its standard deviation. [V]"""
    foretold = state.foretold
    grid = _DARK_REACH * foretold.isc_a / len(foretold.network.strings)

    def stacked(warmer_k: float) -> Stacked:
        return Stacked(foretold.panel(0.0, foretold.cell_c + warmer_k), grid, foretold.scale)

    mean = np.minimum(_each_v(state, stacked(0.0), -amps), SUPPLY_PART * foretold.voc_v)
    by_heat = (_volt(stacked(_WARMER_K), -amps) - _volt(stacked(0.0), -amps)) / _WARMER_K * meters.heat_k
    return mean, _spread(mean, meters, by_heat, 0.0)


def _each_v(state: State, stacked: Stacked, amps: float) -> Array:
    stand_in = Alikes(stacked.network)
    kept: dict[object, float] = {}
    for spot in state.spots:
        for strength in spot.strengths:
            wrong = stand_in.wrong(spot, strength)
            if wrong not in kept:
                kept[wrong] = _volt(stacked, amps, wrong)
    stand_in = Alikes(stacked.network)
    return np.array([
        [kept[stand_in.wrong(spot, strength)] for strength in spot.strengths] for spot in state.spots
    ])  # fmt: skip


def _volt(stacked: Stacked, amps: float, wrong: tuple[At, ...] = ()) -> float:
    if amps == 0.0:
        return stacked.open_v(wrong)
    return float(np.interp(amps, _panel_a(stacked), stacked.panel_v(wrong)))


def _panel_a(stacked: Stacked) -> Array:
    return stacked.currents * len(stacked.network.strings)


def _spread(mean: Array, meters: Meters, *moves: float) -> Array:
    own = np.hypot(meters.voltage * mean, meters.least_v)
    return np.sqrt(own**2 + sum(move**2 for move in moves))
