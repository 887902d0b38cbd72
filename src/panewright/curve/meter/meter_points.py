"""The points of a curve that readings of a meter are, with one standard deviation of each figure."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from panewright.curve.meter.meter_set import Load, MeterSet

_RECTANGULAR = math.sqrt(3.0)


@dataclass(frozen=True, slots=True)
class MeterPoint:
    """A point of the curve at the panel's terminals."""

    name: str  #: which reading it is
    voltage_v: float
    current_a: float
    voltage_sigma_v: float
    current_sigma_a: float
    how: str  #: what was read and what was reckoned

    @property
    def power_w(self) -> float:
        """Power at the point. [W]"""
        return self.voltage_v * self.current_a

    @property
    def power_sigma_w(self) -> float:
        """One standard deviation of the power, errors of both taken as independent. [W]"""
        return math.hypot(self.voltage_v * self.current_sigma_a, self.current_a * self.voltage_sigma_v)


def points_of(readings: MeterSet) -> tuple[MeterPoint, ...]:
    """Every point that the readings give, by rising voltage.

    >>> from panewright.curve.meter.meter_set import MeterClass
    >>> meter = MeterClass(0.005, 2, 0.01)
    >>> found = points_of(MeterSet(meter, meter, 20.8, 4.6, (Load("4R7", 4.7, 0.05, voltage_v=17.2),)))
    >>> [(each.name, round(each.voltage_v, 2), round(each.current_a, 2)) for each in found]
    [('Isc', 0.0, 4.6), ('4R7', 17.2, 3.66), ('Voc', 20.8, 0.0)]
    """
    found = [*_ends(readings), *(_loaded(readings, load) for load in readings.loads)]
    return tuple(sorted(found, key=lambda each: each.voltage_v))


def light_sigma(readings: MeterSet) -> float:
    """Standard deviation of the light of any one reading, as a share: it moved from before to after. [-]"""
    moved = [
        abs(readings.after[name] - readings.before[name]) / (readings.after[name] + readings.before[name]) * 2
        for name in ("isc_a", "irradiance_w_m2")
        if readings.before.get(name, 0) > 0 and readings.after.get(name, 0) > 0
    ]
    return max(moved, default=0.0) / 2 / _RECTANGULAR


def _ends(readings: MeterSet) -> Iterator[MeterPoint]:
    light = light_sigma(readings)
    if readings.isc_a is not None:
        isc, over = readings.isc_a, readings.isc_a * readings.ammeter_ohm
        sigma = math.hypot(readings.amperes.sigma(isc), light * isc)
        how = f"read over {1e3 * readings.ammeter_ohm:.3g} mohm of ammeter and leads" if over else "read"
        yield MeterPoint("Isc", over, isc, readings.amperes.sigma(isc) * readings.ammeter_ohm, sigma, how)
    if readings.voc_v is not None:
        yield MeterPoint("Voc", readings.voc_v, 0.0, readings.volts.sigma(readings.voc_v), 0.0, "read")


def _loaded(readings: MeterSet, load: Load) -> MeterPoint:
    """A load's point; `ValueError` where it says too little, which `refuse_contradictions` finds before."""
    amperes, amperes_sigma, by = _current(readings, load)
    volts, volts_sigma, how = _voltage(readings, load, amperes, amperes_sigma)
    sigma = math.hypot(amperes_sigma, light_sigma(readings) * amperes)
    return MeterPoint(load.name, volts, amperes, volts_sigma, sigma, f"{how}; {by}")


def _current(readings: MeterSet, load: Load) -> tuple[float, float, str]:
    """The current through a load, read or by its resistance, with its standard deviation. [A]"""
    if load.current_a is not None:
        return load.current_a, readings.amperes.sigma(load.current_a), "current read"
    if load.ohm is None or load.voltage_v is None:
        raise ValueError(f"{load.name} has neither its current nor voltage and resistance")
    ohm = load.ohm + (readings.leads_ohm if readings.volts_at == "panel" else 0.0)
    amperes = load.voltage_v / ohm
    share = readings.volts.sigma(load.voltage_v) / load.voltage_v if load.voltage_v else 0.0
    off = load.tolerance * load.ohm / ohm / _RECTANGULAR
    return amperes, amperes * math.hypot(share, off), f"current by {load.ohm:g} ohm"


def _voltage(readings: MeterSet, load: Load, amperes: float, sigma_a: float) -> tuple[float, float, str]:
    """The voltage at the panel, read or by the resistance in the loop, with its standard deviation. [V]"""
    if load.voltage_v is not None:
        beyond = readings.leads_ohm + (readings.ammeter_ohm if load.current_a is not None else 0.0)
        lost = amperes * beyond if readings.volts_at == "load" else 0.0
        how = f"voltage read at the load, {lost:.3g} V of leads and ammeter added" if lost else "voltage read"
        return load.voltage_v + lost, readings.volts.sigma(load.voltage_v), how
    if load.ohm is None:
        raise ValueError(f"{load.name} has neither its voltage nor its resistance")
    loop = load.ohm + readings.ammeter_ohm + readings.leads_ohm
    off = amperes * load.ohm * load.tolerance / _RECTANGULAR
    return amperes * loop, math.hypot(sigma_a * loop, off), f"voltage by {loop:.4g} ohm in the loop"
