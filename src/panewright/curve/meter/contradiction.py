"""Readings that cannot both be true, whatever the panel: named in pairs.

A curve falls: at more voltage no more current. Nothing under load passes Voc or Isc. What a resistor's
voltage and current say of it has to be its resistance. Each holds within three standard deviations of both
readings, the drift of the light counted in.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

from panewright.curve.meter.meter_points import MeterPoint, points_of
from panewright.curve.meter.meter_set import Load, MeterSet
from panewright.errors import CurveError, Problem

_WIDE = 3.0  # standard deviations
_AGAIN = "Read both again, within a few seconds and in the same light."


def refuse_contradictions(readings: MeterSet) -> None:
    """`CurveError` with every reading that says too little and every two that contradict each other."""
    problems = list(_too_little(readings)) or [
        *_of_one_load(readings),
        *_light(readings),
        *_of_two_points(points_of(readings)),
    ]
    if problems:
        raise CurveError(problems)


def _too_little(readings: MeterSet) -> Iterator[Problem]:
    """Readings that are no numbers, below zero, or lack what makes a point of them."""
    figures = {"voc": readings.voc_v, "isc": readings.isc_a}
    for load in readings.loads:
        figures |= {f"{load.name}: volts": load.voltage_v, f"{load.name}: amps": load.current_a}
        figures |= {f"{load.name}: resistor": load.ohm}
        yield from _of_load(load)
    for key, value in figures.items():
        if value is not None and not 0 < value < math.inf:
            cure = "Turn the leads round, or leave it out."
            yield Problem("A reading is a number above zero.", cure, key=key, value=f"{value:g}")
    names = [load.name for load in readings.loads]
    for name in sorted({name for name in names if names.count(name) > 1}):
        yield Problem("Two loads have this name.", "Give each a name of its own.", key="load", value=name)
    if sum(value is not None for value in (readings.voc_v, readings.isc_a)) + len(names) < 2:
        reason = "One reading is no curve."
        yield Problem(reason, "Read Voc, Isc and a load or two between.", key="readings")


def _of_load(load: Load) -> Iterator[Problem]:
    if load.voltage_v is None and load.current_a is None:
        yield Problem("Nothing was read of it.", "Read its voltage, its current, or both.", key=load.name)
    elif load.ohm is None and (load.voltage_v is None or load.current_a is None):
        reason = "Its resistance is not known, and one reading alone is no point."
        yield Problem(
            reason, "Read both its voltage and its current: a lamp's resistance moves.", key=load.name
        )


def _of_one_load(readings: MeterSet) -> Iterator[Problem]:
    """A resistor's voltage and current against its resistance."""
    for load in readings.loads:
        if load.ohm is None or load.voltage_v is None or load.current_a is None:
            continue
        between = readings.ammeter_ohm + readings.leads_ohm if readings.volts_at == "panel" else 0.0
        seen = load.voltage_v / load.current_a - between
        share = math.hypot(
            readings.volts.sigma(load.voltage_v) / load.voltage_v,
            readings.amperes.sigma(load.current_a) / load.current_a,
        )
        sigma = math.hypot(share * seen, load.tolerance * load.ohm / math.sqrt(3))
        if abs(seen - load.ohm) > _WIDE * sigma:
            reason = (
                f"{load.voltage_v:g} V and {load.current_a:g} A make {seen:.3g} ohm of it, "
                f"and it is marked {load.ohm:g} ohm."
            )
            cure = "Measure the resistor, or read both again: a hot resistor and a bad contact read high."
            yield Problem(reason, cure, key=f"{load.name}: volts and amps")


def _light(readings: MeterSet) -> Iterator[Problem]:
    """Isc lies between what it was before and after."""
    ends = [each["isc_a"] for each in (readings.before, readings.after) if "isc_a" in each]
    if readings.isc_a is None or len(ends) < 2:
        return
    room = _WIDE * readings.amperes.sigma(readings.isc_a) * math.sqrt(2)
    if not min(ends) - room <= readings.isc_a <= max(ends) + room:
        reason = (
            f"Isc was {readings.isc_a:g} A, but {ends[0]:g} A before and {ends[1]:g} A after: "
            "the light did not stand still."
        )
        yield Problem(reason, "Read everything again under a clear sky.", key="isc and isc before and after")


def _of_two_points(points: tuple[MeterPoint, ...]) -> Iterator[Problem]:
    """At more voltage no more current: of every two points."""
    for low, high in combinations(points, 2):
        apart_v, apart_a = high.voltage_v - low.voltage_v, high.current_a - low.current_a
        sure_v = apart_v > _WIDE * math.hypot(low.voltage_sigma_v, high.voltage_sigma_v)
        sure_a = apart_a > _WIDE * math.hypot(low.current_sigma_a, high.current_sigma_a)
        if sure_v and (sure_a or low.name == "Voc"):
            yield _fell(low, high)


def _fell(low: MeterPoint, high: MeterPoint) -> Problem:
    """The sentence of two points of which the one with more voltage has more current."""
    first, second = (f"{each.voltage_v:.4g} V, {each.current_a:.4g} A" for each in (low, high))
    reason = (
        f"{low.name} ({first}) and {high.name} ({second}) contradict each other: "
        "no panel gives more current at more voltage."
    )
    return Problem(reason, _AGAIN, key=f"{low.name} and {high.name}")
