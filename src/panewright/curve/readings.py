"""What a multimeter shows of a cell, and whether any silicon cell can show it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from panewright.cell.curve import current_a, swallowed_a
from panewright.cell.diode import Diode
from panewright.cell.nameplate import MOST_A_PER_MM2, MOST_VOC_V
from panewright.cell.three_points import LEAST_N, THERMAL_25_V
from panewright.units import KELVIN

_VOC_PER_K = 0.0025  # by this the limit of Voc rises as the cell gets colder


@dataclass(frozen=True, slots=True)
class Loaded:
    """One reading between short and open circuit."""

    voltage_v: float
    current_a: float

    @classmethod
    def on_resistor(cls, ohm: float, voltage_v: float) -> Loaded:
        """A voltage read on a known resistor."""
        return cls(voltage_v, voltage_v / ohm)

    @classmethod
    def through_resistor(cls, ohm: float, current_a: float) -> Loaded:
        """A current read through a known resistor, the meter's own included."""
        return cls(current_a * ohm, current_a)


@dataclass(frozen=True, slots=True)
class Readings:
    """What a meter showed, each with one standard deviation as a share of it."""

    isc_a: float
    voc_v: float
    irradiance_w_m2: float
    cell_c: float
    loaded: Loaded | None = None
    meter_ohm: float = 0.0  #: of the ammeter and its leads while it read isc_a
    current_share: float = 0.01
    voltage_share: float = 0.005


def impossible(readings: Readings, area_mm2: float) -> tuple[str, ...]:
    """Why no silicon cell of this area can give these readings; empty if one can.

    >>> impossible(Readings(8.5, 1.2, 1000, 25), 24336)
    ('voc 1.2 V is more than one silicon cell can have at 25 degC, 0.88 V: is it more cells in series?',)
    """
    loaded = readings.loaded
    figures = [readings.isc_a, readings.voc_v, readings.irradiance_w_m2, area_mm2]
    if not all(0 < figure < np.inf for figure in figures):
        return ("isc, voc, the light and the area must all be above zero.",)
    if not readings.cell_c > -KELVIN or not 0 <= readings.meter_ohm < np.inf:
        return ("the cell's temperature must be above 0 K and the meter's resistance zero or more.",)
    if loaded and not (0 <= loaded.voltage_v < np.inf and 0 <= loaded.current_a < np.inf):
        return ("the loaded voltage and current must be zero or more; turn the leads round.",)
    reasons = list(_ends(readings, area_mm2))
    if not reasons and loaded:
        reasons = list(_between(readings, loaded))
    return tuple(reasons)


def _ends(readings: Readings, area_mm2: float) -> Iterator[str]:
    """Isc and Voc against what silicon can give."""
    most_a = MOST_A_PER_MM2 * area_mm2 * readings.irradiance_w_m2 / 1000
    most_v = MOST_VOC_V + max(0.0, 25 - readings.cell_c) * _VOC_PER_K
    if readings.isc_a > most_a:
        yield (
            f"isc {readings.isc_a:g} A is more than {readings.irradiance_w_m2:.0f} W/m2 can free in "
            f"{area_mm2 / 100:.1f} cm2 of silicon, {most_a:.3g} A."
        )
    if readings.voc_v > most_v:
        yield (
            f"voc {readings.voc_v:g} V is more than one silicon cell can have at {readings.cell_c:g} degC, "
            f"{most_v:.2f} V: is it more cells in series?"
        )
    over = readings.isc_a * readings.meter_ohm
    if over >= readings.voc_v:
        yield f"over the meter's {readings.meter_ohm:g} ohm isc would make {over:.3g} V, not below voc."


def _between(readings: Readings, loaded: Loaded) -> Iterator[str]:
    """The loaded reading against short and open circuit and the best curve between them."""
    v, i, isc, voc = loaded.voltage_v, loaded.current_a, readings.isc_a, readings.voc_v
    short_v = isc * readings.meter_ohm
    if v >= voc:
        yield f"the loaded voltage {v:g} V is not below voc {voc:g} V: under load the voltage is less."
        return
    if v <= short_v:
        yield f"the loaded voltage {v:g} V is not above the {short_v:.3g} V at which isc was read."
        return
    if i >= isc:
        yield f"the loaded current {i:g} A is not below isc {isc:g} A: under load the current is less."
        return
    chord = isc * (voc - v) / (voc - short_v)
    if i <= chord:
        yield f"{i:g} A at {v:g} V lies below the line from isc to voc, {chord:.4g} A; no cell's curve does."
    x = LEAST_N * THERMAL_25_V * (readings.cell_c + KELVIN) / (25 + KELVIN)
    best = through_two(readings, Diode(isc, 1e-12, x, 0.0, math.inf))
    if best is not None and i > (most := current_a(best, v)):
        yield f"{i:g} A at {v:g} V is more than the best cell of this isc and voc gives there, {most:.4g} A."


def through_two(readings: Readings, like: Diode) -> Diode | None:
    """Light and saturation through Isc and Voc, the rest like a given diode; None if one were negative."""
    x, voc = like.ideality_v, readings.voc_v
    short = readings.isc_a * (readings.meter_ohm + like.series_ohm)
    if short >= voc:
        return None
    straight = replace(like, saturation_a=1e-300)
    at_short, at_open = (float(swallowed_a(straight, vd)[0]) for vd in (short, voc))
    boosted = (readings.isc_a + at_short - at_open) / -math.expm1((short - voc) / x)  # I0 exp(Voc / x)
    saturation = boosted * math.exp(-voc / x)
    light = saturation * math.expm1(voc / x) + at_open
    if not (saturation > 0 and light > 0):
        return None
    return replace(like, light_a=light, saturation_a=saturation)
