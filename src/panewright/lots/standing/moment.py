"""Many cells at once in a light and heat of their own: `cell.model.diode_at`, side by side."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from panewright.cell.curve import current_a
from panewright.cell.diodes import Diodes
from panewright.cell.model import BOLTZMANN_EV, T0_K, CellModel
from panewright.cell.root import Array
from panewright.units import KELVIN


def diodes_at(model: CellModel, stc: Diodes, light_w_m2: Array, cell_c: Array) -> Diodes:
    """Cells of a kind, given at STC, each in its own light and heat, by De Soto's rules."""
    t, light = cell_c + KELVIN, light_w_m2 / 1000
    drift = model.isc_per_k * current_a(stc, np.zeros(stc.light_a.shape)) * (t - T0_K)
    growth = (t / T0_K) ** 3 * np.exp(model.gap_ev / BOLTZMANN_EV * (1 / T0_K - 1 / t))
    return replace(
        stc,
        light_a=light * np.maximum(stc.light_a + drift, 0.0),
        saturation_a=stc.saturation_a * growth,
        ideality_v=stc.ideality_v * t / T0_K,
        shunt_ohm=stc.shunt_ohm / light,
    )


def by_light_and_heat(by_log: Array, model: CellModel, cell_c: Array) -> tuple[Array, Array]:
    """How a reading moves with the logarithm of the light, and with a kelvin.

    `by_log` (n, 6) is how it moves with the logarithms of IL, I0, x, Rs, Rsh and G in that light and heat.
    """
    t = cell_c + KELVIN
    light, saturation, x, shunt = (by_log[:, k] for k in (0, 1, 2, 4))
    warming = model.isc_per_k / np.maximum(1 + model.isc_per_k * (t - T0_K), 0.1)
    grown = 3 / t + model.gap_ev / (BOLTZMANN_EV * t**2)
    return light - shunt, light * warming + saturation * grown + x / t
