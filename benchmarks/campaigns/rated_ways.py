"""How light and heat of an invented measurement are told, each with all its errors drawn.

Where a source says how far a thing really strays, that is drawn, also where it is more than the rating takes
for granted. Where none does, the error is drawn as a bell as wide as the rating says: such a way shows that
its errors are put together rightly, not that its width is true.

    clear sky       the model by 6 % (published comparisons 4 to 7 %, recalled; the rating takes 4 %)
    light meter     colours by 2 % (a thermopile beside silicon at air masses of 1 to 2, recalled; 1.5 %)
    the air         u0 23.5 to 26.5, u1 6.25 to 7.68 as seven kinds of module have them (Faiman 2008,
                    recalled), wind that is 30 % off, cells that lag 2 K behind their light (common practice)
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from math import cos, radians, sqrt

import numpy as np

from panewright.bench.rate import heat, light
from panewright.bench.rate.instrument import of_certificate, of_class
from panewright.curve.moved.coefficients import Coefficients
from panewright.sky.clear import clear_sky
from panewright.sky.light import Doubt, clear_light
from panewright.sky.place import Air, Place, Plane

LIGHTS = ("reference cell", "second panel", "light meter", "clear sky")
HEATS = ("back sensor", "infrared gun", "the air", "Voc itself")
CELL = of_certificate("cell 1", "reference cell", 0.02)
PANEL = of_certificate("panel 2", "second panel", 0.03)
METER = of_certificate("sun 1", "light meter", 0.05)
BACK = of_class("back 1", "thermometer", 0.0, within=1.0)
GUN = of_class("gun 1", "infrared gun", 0.0, within=2.0)
SECOND_A, SENSOR_C = 5.4, 40.0
MODEL_SHARE, COLOURS_SHARE = 0.06, 0.02
U0, U1, GUST_SHARE, LAG_K = (23.5, 26.5), (6.25, 7.68), 0.3, 2.0
NOON, PLACE = datetime(2026, 6, 20, 11, 30, tzinfo=UTC), Place(47.1, 8.6, 430.0)


@dataclass(frozen=True, slots=True)
class Sunlit:
    """The true light on the panel, and how it was told."""

    true_w_m2: float
    told: light.Light


@dataclass(frozen=True, slots=True)
class Warm:
    """The cells' true heat, and how it was told."""

    true_c: float
    told: heat.Heat


def lit(chance: np.random.Generator, way: str) -> Sunlit:
    """Light by one of `LIGHTS`."""
    if way == "clear sky":
        return _by_sky(chance)
    sun = float(chance.uniform(650, 1050))
    sees = sun * _askew(chance) * float(np.prod(1 + sqrt(2) * np.array([0.005]) * chance.standard_normal(1)))
    if way == "light meter":
        own = 1 + 0.025 * chance.standard_normal() + COLOURS_SHARE * chance.standard_normal()
        return Sunlit(sun, light.by_meter(sees * own, METER))
    cell = way == "reference cell"
    share, at_stc = (0.01, 0.1) if cell else (0.015, SECOND_A)
    drift = (light.ALPHA.value + light.ALPHA.sigma * chance.standard_normal()) * (SENSOR_C - 25)
    reading = at_stc * sees / 1000 * (1 + drift) * (1 + share * chance.standard_normal())
    sensor = light.Sensor(CELL if cell else PANEL, at_stc)
    sensor_c = SENSOR_C + sensor.heat_sigma_k * chance.standard_normal()
    return Sunlit(sun, (light.by_cell if cell else light.by_panel)(reading, sensor_c, sensor))


def _askew(chance: np.random.Generator) -> float:
    """What a sensor two degrees askew sees of the panel's light."""
    aslant, askew = light.SQUARELY.incidence_deg, light.SQUARELY.askew_deg * chance.standard_normal()
    return cos(radians(aslant + askew)) / cos(radians(aslant))


def _by_sky(chance: np.random.Generator) -> Sunlit:
    """A clear day near noon: tilt, compass, clock, haze and ground are all a little other than was said."""
    doubt, off = Doubt(), chance.standard_normal(6)
    said = NOON + timedelta(minutes=float(chance.uniform(-90, 90)))
    plane = Plane(float(chance.uniform(15, 40)), float(chance.uniform(160, 200)))
    told = clear_light(PLACE, plane, said)
    truly = replace(
        plane,
        tilt_deg=plane.tilt_deg + doubt.tilt_deg * off[0],
        azimuth_deg=plane.azimuth_deg + doubt.azimuth_deg * off[1],
        albedo=float(np.clip(plane.albedo + doubt.albedo * off[2], 0, 1)),
    )
    hazy = Air(max(told.sky.turbidity + doubt.turbidity * off[3], 1.0))
    when = said + timedelta(seconds=doubt.clock_s * off[4])
    true = clear_sky(PLACE, truly, when, hazy).seen_w_m2
    colours = doubt.colours_share * chance.standard_normal()
    return Sunlit(true * (1 + MODEL_SHARE * off[5]) * (1 + colours), light.by_sky(told))


def warmed(chance: np.random.Generator, way: str, sun_w_m2: float, by: Coefficients) -> Warm:
    """Heat by one of `HEATS`; `by` is what Voc is held against."""
    if way == "the air":
        return _by_air(chance, sun_w_m2)
    back = float(chance.uniform(25, 55))
    behind = heat.BEHIND_K + heat.BEHIND_SIGMA_K * chance.standard_normal()
    hot = back + behind * sun_w_m2 / 1000 + chance.standard_normal()
    if way == "Voc itself":
        return Warm(hot, heat.by_voc(by))
    if way == "infrared gun":
        seen = back + heat.GUN_SIGMA_K * chance.standard_normal() + chance.uniform(-2, 2)
        return Warm(hot, heat.by_gun(seen, GUN))
    return Warm(hot, heat.by_back(back + chance.uniform(-1, 1), BACK))


def _by_air(chance: np.random.Generator, sun_w_m2: float) -> Warm:
    """The rise of one kind of module in gusts, and the light of a minute ago."""
    air, wind = float(chance.uniform(5, 30)), float(chance.uniform(0.5, 5))
    felt = max(wind * (1 + GUST_SHARE * chance.standard_normal()), 0.0)
    rise = sun_w_m2 / (chance.uniform(*U0) + chance.uniform(*U1) * felt)
    hot = air + rise + LAG_K * chance.standard_normal()
    return Warm(hot, heat.by_air(air + chance.uniform(-1, 1), wind, BACK))
