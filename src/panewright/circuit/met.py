"""A panel's circuit moved so that it meets the figures that were measured of it at standard conditions.

The light current of all cells is scaled to meet Isc, their saturation current to meet Voc, and every series
resistance, of cells, joints and leads alike, to meet the power. What differs from cell to cell stays as it
was. In series n cells' open voltage moves by nVth ln f each when the saturation current grows by f, so that
step hardly needs repeating; the three lean on each other a little, hence some rounds.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from scipy.optimize import brentq

from panewright.cell.diode import Diode
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Network, String, Substring

_ROUNDS, _MOST_OHM_TIMES = 6, 40.0


@dataclass(frozen=True, slots=True)
class Figures:
    """What was measured at 1000 W/m2 and 25 degC; None where it was not."""

    power_w: float | None = None
    isc_a: float | None = None
    voc_v: float | None = None


@dataclass(frozen=True, slots=True)
class Met:
    """The circuit in both heats, moved, and what its resistances were multiplied by."""

    cool: Network
    warm: Network
    ohm_times: float
    power_met: bool  #: False where no resistance at all still gives less


def met(cool: Network, warm: Network, figures: Figures) -> Met:
    """Both networks of a panel, at 25 and 65 degC in full sun, moved alike."""
    light = saturation = ohms = 1.0
    power_met = True
    for _ in range(_ROUNDS):
        points = key_points(_moved(cool, light, saturation, ohms))
        if figures.isc_a:
            light *= figures.isc_a / points.isc_a
        if figures.voc_v:
            points = key_points(_moved(cool, light, saturation, ohms))
            saturation *= math.exp((points.voc_v - figures.voc_v) / _thermal_v(cool))
        if figures.power_w:
            ohms, power_met = _ohms(cool, light, saturation, figures.power_w)
    moved = [_moved(each, light, saturation, ohms) for each in (cool, warm)]
    return Met(moved[0], moved[1], ohms, power_met)


def _thermal_v(network: Network) -> float:
    """Sum of nVth along a string. [V]"""
    string = network.strings[0]
    return sum(cell.ideality_v for part in string.substrings for cell in part.cells)


def _ohms(network: Network, light: float, saturation: float, power_w: float) -> tuple[float, bool]:
    """What resistances are multiplied by for that power, and whether it is reached at all."""

    def over(times: float) -> float:
        return key_points(_moved(network, light, saturation, times)).power_w - power_w

    if over(0.0) <= 0:
        return 0.0, False
    if over(_MOST_OHM_TIMES) >= 0:
        return _MOST_OHM_TIMES, False
    return float(brentq(over, 0.0, _MOST_OHM_TIMES, xtol=1e-6)), True


def _moved(network: Network, light: float, saturation: float, ohms: float) -> Network:
    def cell(diode: Diode) -> Diode:
        return replace(
            diode,
            light_a=diode.light_a * light,
            saturation_a=diode.saturation_a * saturation,
            series_ohm=diode.series_ohm * ohms,
        )

    return replace(
        network,
        strings=tuple(_string(string, cell, ohms) for string in network.strings),
        lead_ohm=network.lead_ohm * ohms,
    )


def _string(string: String, cell: Callable[[Diode], Diode], ohms: float) -> String:
    parts = tuple(_part(part, cell, ohms) for part in string.substrings)
    tail = string.tail_ohm if math.isinf(string.tail_ohm) else string.tail_ohm * ohms
    return replace(string, substrings=parts, tail_ohm=tail)


def _part(part: Substring, cell: Callable[[Diode], Diode], ohms: float) -> Substring:
    moved = {each: cell(each) for each in set(part.cells)}
    joints = tuple(ohm if math.isinf(ohm) else ohm * ohms for ohm in part.joints_ohm)
    return replace(part, cells=tuple(moved[each] for each in part.cells), joints_ohm=joints)
