"""What a meter would read off many cells at once, and how it moves with each cell's figures.

All slopes are exact, from the law itself. With D(Vd) what the junction swallows, g its slope and

    e_p = IL_p - D_p   at a held junction voltage, for the logarithm p of IL, I0, x, Rs, Rsh or G,

    current at a held voltage   I_p = (e_p - g I Rs_p) / (1 + g Rs)
    voltage at a held current   V_p = e_p / g - I Rs_p
    maximum power               as in `circuit.mismatch.own_power`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from panewright.cell.curve import current_a, swallowed_a, voltage_v
from panewright.cell.diode import top_v
from panewright.cell.diodes import Diodes
from panewright.cell.peak import peak
from panewright.cell.root import Array


@dataclass(frozen=True, slots=True)
class Reading:
    """A figure of every cell and its slopes (n, 6) by the logarithms of IL, I0, x, Rs, Rsh and G."""

    value: Array
    by_log: Array


def at_voltage(cells: Diodes, volt: Array, meter_ohm: float = 0.0) -> tuple[Reading, Array]:
    """Current at a voltage, the meter's resistance in between; and how steeply it falls. [A, S]"""
    total = cells.series_ohm + meter_ohm
    current = current_a(replace(cells, series_ohm=total), volt)
    pushed, g = _pushed_a(cells, volt + current * total)
    pushed[:, 3] = -g * current * cells.series_ohm
    return Reading(current, pushed / (1 + g * total)[:, None]), g / (1 + g * total)


def at_open(cells: Diodes) -> Reading:
    """Voc."""
    volt = voltage_v(cells, np.zeros(cells.light_a.shape))
    pushed, g = _pushed_a(cells, volt)
    return Reading(volt, pushed / g[:, None])


def at_peak(cells: Diodes) -> tuple[Reading, Reading]:
    """Imp and Vmp."""
    top = peak(cells)
    current, n, rs = top.imp_a, cells.ideality_v, cells.series_ohm
    vd = top.vmp_v + current * rs
    pushed, g = _pushed_a(cells, vd)
    grown = cells.saturation_a / n * np.exp(vd / n)
    bend = grown / n / g**2
    fall = -(1 / g + rs)
    curved = 2 * fall - current * bend / g
    series = np.zeros_like(pushed)
    series[:, 3] = rs
    junction = pushed / g[:, None]
    volt = junction - current[:, None] * series
    fall_p = _steeper(cells, vd, grown) / (g**2)[:, None] + bend[:, None] * junction - series
    own_a = -(volt + current[:, None] * fall_p) / curved[:, None]
    return Reading(current, own_a), Reading(top.vmp_v, volt + fall[:, None] * own_a)


def backwards(cells: Diodes, volt: Array) -> Reading:
    """Current of a dark cell at a voltage put on backwards: shunt and breakdown, series resistance aside."""
    shunt = volt / cells.shunt_ohm
    left = np.maximum(1 + volt / cells.breakdown_v, 1e-3)  # at breakdown itself the law ends
    leak = cells.breakdown_siemens * volt * left**-cells.breakdown_exponent
    slopes = np.zeros((volt.size, 6))
    slopes[:, 4], slopes[:, 5] = -shunt, leak
    return Reading(shunt + leak, slopes)


def shunt_read(cells: Diodes) -> Reading:
    """The slope at short circuit as a resistance: shunt and the breakdown's own leak. [ohm]"""
    siemens = 1 / cells.shunt_ohm + cells.breakdown_siemens
    slopes = np.zeros((siemens.size, 6))
    slopes[:, 4] = 1 / (cells.shunt_ohm * siemens**2)
    slopes[:, 5] = -cells.breakdown_siemens / siemens**2
    return Reading(1 / siemens, slopes)


def _pushed_a(cells: Diodes, vd: Array) -> tuple[Array, Array]:
    """e_p at a held junction voltage, and g. [A, S]"""
    x = cells.ideality_v
    grown = np.exp(vd / x)
    pushed = np.zeros((vd.size, 6))
    pushed[:, 0] = cells.light_a
    pushed[:, 1] = -cells.saturation_a * (grown - 1)
    pushed[:, 2] = cells.saturation_a * grown * vd / x
    pushed[:, 4] = vd / cells.shunt_ohm
    held = np.minimum(vd, top_v(cells.breakdown_v, cells.breakdown_exponent))
    pushed[:, 5] = (
        -cells.breakdown_siemens * held * (1 - held / cells.breakdown_v) ** -cells.breakdown_exponent
    )
    return pushed, swallowed_a(cells, vd)[1]


def _steeper(cells: Diodes, vd: Array, grown: Array) -> Array:
    """How g moves at a held junction voltage; breakdown's part is nothing forward. [S]"""
    steeper = np.zeros((vd.size, 6))
    steeper[:, 1] = grown
    steeper[:, 2] = -grown * (vd / cells.ideality_v + 1)
    steeper[:, 4] = -1 / cells.shunt_ohm
    steeper[:, 5] = cells.breakdown_siemens
    return steeper
