"""The whole panel in other light: open in dull light, or in the dark with a current pushed through.

In dull light a shunted cell takes its own current and gives no volts; in the dark nothing of light or shade
shows, and a resistance stands alone. Neither tells the place within a row; both part kinds. Both stand by
themselves: how well the panel's own Voc, resistance and shunts are foretold is part of their error.
"""

from __future__ import annotations

import math

import numpy as np

from panewright.bench.fault.leak import leaking
from panewright.bench.fault.place.belief import State
from panewright.bench.fault.place.expected import Expected
from panewright.bench.fault.place.setting import Meters, Setting
from panewright.bench.fault.place.strip import Alikes
from panewright.bench.fault.stacked import At, Stacked
from panewright.cell.root import Array

DULL_W_M2 = 60.0  #: a bright room, or a sky heavily clouded; common practice
DARK_PART = 0.5  #: of Isc, pushed in
SUPPLY_PART = 2.0  #: of Voc: as far as the supply goes; behind a gap it stays there
_DARK_REACH = np.linspace(-1.2, 0.03, 600)
_WARMER_K, _BRIGHTER, _LEAKIER = 1.0, 0.02, 0.3  # the last in e-foldings


def dull_v(state: State, setting: Setting, meters: Meters) -> Expected:
    """Open voltage in dull light. [V]"""
    foretold, light, common = state.foretold, DULL_W_M2, state.common

    def stacked(light_w_m2: float, warmer_k: float, leakier: float = 0.0) -> Stacked:
        network = foretold.panel(light_w_m2, foretold.cell_c + warmer_k)
        if leakier:
            network = leaking(network, math.exp(leakier))
        return Stacked(network, foretold.grid * light_w_m2 / foretold.irradiance_w_m2, foretold.scale)

    mean = _each_v(state, stacked(light, 0.0), 0.0)
    sound = _volt(stacked(light, 0.0), 0.0)
    by_heat = (_volt(stacked(light, _WARMER_K), 0.0) - sound) / _WARMER_K * meters.heat_k
    by_light = (_volt(stacked(light * (1 + _BRIGHTER), 0.0), 0.0) - sound) / _BRIGHTER * meters.dull
    by_shunt = (_volt(stacked(light, 0.0, _LEAKIER), 0.0) - sound) / _LEAKIER * common.shunt
    return _expected(setting, mean, meters, (by_heat, by_light, by_shunt, common.voc * foretold.voc_v))


def dark_v(state: State, setting: Setting, meters: Meters) -> Expected:
    """Voltage in the dark with a current pushed in. [V]"""
    foretold, common, amps = state.foretold, state.common, setting.at_v
    most = setting.most_v or SUPPLY_PART * foretold.voc_v
    grid = _DARK_REACH * foretold.isc_a / len(foretold.network.strings)

    def stacked(warmer_k: float) -> Stacked:
        return Stacked(foretold.panel(0.0, foretold.cell_c + warmer_k), grid, foretold.scale)

    mean = np.minimum(_each_v(state, stacked(0.0), -amps), most)
    by_heat = (_volt(stacked(_WARMER_K), -amps) - _volt(stacked(0.0), -amps)) / _WARMER_K * meters.heat_k
    by_series = common.series * foretold.scale.panel_ohm * amps
    return _expected(setting, mean, meters, (by_heat, by_series, common.voc * foretold.voc_v))


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


def _expected(setting: Setting, mean: Array, meters: Meters, alike: tuple[float, ...]) -> Expected:
    """With what errs alike each time it is read: heat, light, and how the panel itself is foretold."""
    own = np.hypot(meters.voltage * mean, meters.least_v)
    return Expected(setting, mean, own, np.full_like(mean, math.hypot(*alike)))
