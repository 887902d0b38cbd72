"""How the light was known, and the uncertainty that each way deserves.

    reference cell    G = 1000 (reading / its reading at STC) / (1 + alpha (T - 25)); colours as the panel
    second panel      the same by its Isc: whose Isc at STC was itself measured
    light meter       what a meter or telephone reads, which knows neither colours nor slant of the light
    clear sky         place, date and clock, `panewright.sky`
    own Isc           the panel's Isc taken for what was predicted: then neither Isc nor power is rated by it

Typical standard uncertainties of a careful shop outdoors (memory): sensor 2 %, colours 1.5 % for a
pyranometer, 0.5 % for a cell of the panel's own kind, evenness of the light 0.5 %. A phone-grade meter: 8 %
(common practice, no source). A cell two degrees askew of the panel errs by the slope of the cosine where the
sun stands.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians
from typing import Literal

from panewright.bench.rate.doubt import Doubt, share_read_by, together
from panewright.bench.rate.instrument import Instrument
from panewright.curve.moved.coefficients import STC_C, STC_W_M2, Coefficient
from panewright.errors import BenchError, Problem
from panewright.sky.light import SkyLight

How = Literal["reference cell", "second panel", "light meter", "clear sky", "own Isc"]
MOST_W_M2 = 1600.0  #: brighter than any sun with white clouds beside it; common practice
EVEN = Doubt("evenness of the light", 0.005)
BESIDE = (Doubt("colours of the light", 0.005), EVEN)  #: of a sensor of the panel's own kind
ALPHA = Coefficient(0.0005, 0.0002, "recalled")  #: of a silicon reference cell, a kelvin


@dataclass(frozen=True, slots=True)
class Light:
    """The irradiance on the panel, and how it was known."""

    value_w_m2: float
    how: How
    doubts: tuple[Doubt, ...]
    instrument: Instrument | None = None
    unrated: tuple[str, ...] = ()  #: figures that cannot be rated by such a light
    moment: SkyLight | None = None  #: sun and sky at that moment, where place and clock are known

    def __post_init__(self) -> None:
        if not 0 < self.value_w_m2 < MOST_W_M2:
            value = f"{self.value_w_m2:.4g} W/m2"
            reason = f"No sun gives that: light lies between 0 and {MOST_W_M2:g} W/m2."
            cure = "Look at the reading, its unit, and the sensor's figure at STC."
            raise BenchError([Problem(reason, cure, key=f"light by {self.how}", value=value)])

    @property
    def sigma_w_m2(self) -> float:
        """One standard uncertainty."""
        return self.value_w_m2 * together(self.doubts)


@dataclass(frozen=True, slots=True)
class Slant:
    """How the sun fell in, and how far the sensor's face was turned from the panel's."""

    incidence_deg: float = 15.0  #: common practice: the panel is turned towards the sun
    askew_deg: float = 2.0  #: one standard deviation

    @property
    def doubt(self) -> Doubt:
        """What the sensor sees more or less than the panel."""
        at, off = radians(self.incidence_deg), radians(self.askew_deg)
        share = max(abs(cos(at + way * off) / cos(at) - 1) for way in (-1, 1))
        return Doubt("sensor askew", share, "cosine of the angle of incidence")


SQUARELY = Slant()


@dataclass(frozen=True, slots=True)
class Sensor:
    """A cell or a panel whose current or voltage tells the light."""

    instrument: Instrument  #: its calibration: the figure at STC, and how sure that is
    at_stc: float  #: what it gives at 1000 W/m2 and 25 degC, in the unit of its readings
    alpha_per_k: Coefficient = ALPHA
    heat_sigma_k: float = 2.0  #: of its own temperature


def by_cell(reading: float, cell_c: float, sensor: Sensor, slant: Slant = SQUARELY) -> Light:
    """By a calibrated reference cell beside the panel, read in its own unit."""
    return _by_sensor("reference cell", (reading, cell_c), sensor, (*BESIDE, slant.doubt))


def by_panel(isc_a: float, cell_c: float, sensor: Sensor, slant: Slant = SQUARELY) -> Light:
    """By a second panel beside it whose Isc at STC is known."""
    return _by_sensor("second panel", (isc_a, cell_c), sensor, (*BESIDE, slant.doubt))


def by_meter(reading_w_m2: float, meter: Instrument, slant: Slant = SQUARELY) -> Light:
    """By a light meter that reads W/m2, as `phone_grade` ones do."""
    doubts = (
        share_read_by("light meter", meter, reading_w_m2),
        Doubt("colours of the light", 0.015),
        EVEN,
        slant.doubt,
    )
    return Light(reading_w_m2, "light meter", doubts, meter)


def phone_grade(name: str) -> Instrument:
    """A telephone or a cheap meter, without certificate: 8 % (common practice, no source)."""
    return Instrument(name, "light meter", 0.08)


def by_sky(light: SkyLight) -> Light:
    """By place, date and clock under a clear sky."""
    value = light.value_w_m2
    doubts = tuple(
        Doubt(term.name, abs(term.moves_w_m2) / value, "moved through the clear sky") for term in light.terms
    )
    return Light(value, "clear sky", doubts, moment=light)


def by_own_isc(isc_a: float, cell_c: float, predicted: Sensor) -> Light:
    """By the panel's own Isc, taken for the predicted one; Isc, Imp and power are then not rated."""
    made = _by_sensor("own Isc", (isc_a, cell_c), predicted, ())
    return Light(made.value_w_m2, made.how, made.doubts, None, ("isc_a", "imp_a", "power_w"))


def _by_sensor(how: How, read: tuple[float, float], sensor: Sensor, doubts: tuple[Doubt, ...]) -> Light:
    reading, cell_c = read
    warmth = 1 + sensor.alpha_per_k.value * (cell_c - STC_C)
    value = STC_W_M2 * reading / sensor.at_stc / warmth
    heat = abs(sensor.alpha_per_k.value) * sensor.heat_sigma_k
    slope = sensor.alpha_per_k.sigma * abs(cell_c - STC_C)
    instrument = sensor.instrument
    own = (
        share_read_by("sensor", instrument, reading),
        Doubt("sensor's heat", heat, f"{sensor.heat_sigma_k:g} K"),
        Doubt("sensor's drift with heat", slope, sensor.alpha_per_k.whence),
    )
    return Light(value, how, (*own, *doubts), instrument)
