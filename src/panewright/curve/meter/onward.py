"""Readings of a meter handed on: as a measured curve to fit, or as the few readings of one cell."""

from __future__ import annotations

import math
from collections.abc import Sequence

from panewright.curve.cleaning import Cleaned, Sweep, clean
from panewright.curve.measured import Accuracy
from panewright.curve.meter.meter_points import MeterPoint, light_sigma
from panewright.curve.meter.meter_set import MeterSet
from panewright.curve.readings import Loaded, Readings
from panewright.curve.swept.swept import STANDARD_C, STANDARD_W_M2

_RECTANGULAR = math.sqrt(3.0)


def accuracy_of(readings: MeterSet) -> Accuracy:
    """What of the meter's error scatters, and what is common to all its readings."""
    loads = [load.tolerance for load in readings.loads if load.current_a is None]
    by_tolerance = max(loads, default=0.0) / _RECTANGULAR
    return Accuracy(
        voltage_v=readings.volts.digits * readings.volts.step / _RECTANGULAR,
        current_a=readings.amperes.digits * readings.amperes.step / _RECTANGULAR,
        current_share=math.hypot(by_tolerance, light_sigma(readings)),
        voltage_gain=readings.volts.share / _RECTANGULAR,
        current_gain=readings.amperes.share / _RECTANGULAR,
    )


def curve_of(readings: MeterSet, points: Sequence[MeterPoint]) -> Cleaned:
    """The points as a measured curve; light and heat that are not known stand at those of STC."""
    light = STANDARD_W_M2 if readings.irradiance_w_m2 is None else readings.irradiance_w_m2
    heat = STANDARD_C if readings.cell_c is None else readings.cell_c
    volts, amperes = [each.voltage_v for each in points], [each.current_a for each in points]
    return clean(Sweep(volts, amperes, light, heat, accuracy_of(readings), "generator"))


def cell_readings(readings: MeterSet, points: Sequence[MeterPoint]) -> Readings | None:
    """Isc, Voc and the load of most power as readings of one of equal cells; None where one is lacking."""
    known = readings.isc_a, readings.voc_v, readings.irradiance_w_m2, readings.cell_c
    isc, voc, light, heat = known
    if isc is None or voc is None or light is None or heat is None:
        return None
    cells = readings.cells or 1
    loads = [each for each in points if each.name not in ("Isc", "Voc")]
    best = max(loads, key=lambda each: each.power_w, default=None)
    short = next(each for each in points if each.name == "Isc")
    return Readings(
        isc, voc / cells, light, heat,
        Loaded(best.voltage_v / cells, best.current_a) if best else None,
        readings.ammeter_ohm / cells,
        current_share=short.current_sigma_a / isc,
        voltage_share=readings.volts.sigma(voc) / voc,
    )  # fmt: skip
