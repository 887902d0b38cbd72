"""Irradiance from place, date and clock alone, with the uncertainty it deserves.

Each thing that was not known exactly is moved by its own standard uncertainty, and the whole computation is
done again; the moves add by their squares (JCGM 100:2008, 5.1.2 and 5.1.3 note 2, recalled). What the model
of a clear sky itself may be off is the largest: published comparisons find clear global light within some 4
to 7 % and direct light within 10 % (recalled), of which the turbidity is about half and stands apart here. A
sky that only looks clear is not in it: thin cirrus takes 5 to 20 % (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from math import sqrt

from panewright.errors import SkyError
from panewright.sky.clear import ClearSky, clear_sky
from panewright.sky.place import Air, Place, Plane


@dataclass(frozen=True, slots=True)
class Doubt:
    """Standard uncertainty of each thing in a clear sky; common practice where no source is named."""

    tilt_deg: float = 1.5  #: a spirit level on a telephone
    azimuth_deg: float = 4.0  #: a compass near metal
    clock_s: float = 30.0
    turbidity: float = 1.0  #: of a day against its month's mean
    albedo: float = 0.08
    model_share: float = 0.04  #: recalled, see above
    colours_share: float = 0.01  #: of the light's spectrum on silicon at air mass 1.5
    colours_share_per_air_mass: float = 0.01


@dataclass(frozen=True, slots=True)
class SkyTerm:
    """One thing not known, and how far it moves the light."""

    name: str
    sigma: float  #: in its own unit
    unit: str
    moves_w_m2: float


@dataclass(frozen=True, slots=True)
class SkyLight:
    """What the panel's cells see of a clear sky, and how sure that is."""

    sky: ClearSky
    terms: tuple[SkyTerm, ...]

    @property
    def value_w_m2(self) -> float:
        """As light that falls straight on."""
        return self.sky.seen_w_m2

    @property
    def sigma_w_m2(self) -> float:
        """One standard uncertainty."""
        return sqrt(sum(term.moves_w_m2**2 for term in self.terms))


def clear_light(
    place: Place, plane: Plane, moment: datetime, air: Air | None = None, doubt: Doubt | None = None
) -> SkyLight:
    """Light on the cells under a clear sky; `SkyError` as `clear_sky`."""
    own, by = air or Air(), doubt or Doubt()
    sky = clear_sky(place, plane, moment, own)
    own = replace(own, turbidity=sky.turbidity)
    return SkyLight(sky, (*_moved(sky, (place, plane, moment, own), by), *_shares(sky, by)))


def _moved(sky: ClearSky, given: tuple[Place, Plane, datetime, Air], by: Doubt) -> Iterator[SkyTerm]:
    """Terms that are moved through the whole computation."""
    place, plane, moment, air = given

    def tilted(step: float) -> ClearSky:
        tilt = min(max(plane.tilt_deg + step, 0.0), 90.0)
        return clear_sky(place, replace(plane, tilt_deg=tilt), moment, air)

    def turned(step: float) -> ClearSky:
        return clear_sky(place, replace(plane, azimuth_deg=(plane.azimuth_deg + step) % 360), moment, air)

    def later(step: float) -> ClearSky:
        return clear_sky(place, plane, moment + timedelta(seconds=step), air)

    def hazier(step: float) -> ClearSky:
        assert air.turbidity is not None
        return clear_sky(place, plane, moment, replace(air, turbidity=max(air.turbidity + step, 1.0)))

    def brighter(step: float) -> ClearSky:
        return clear_sky(place, replace(plane, albedo=min(max(plane.albedo + step, 0.0), 1.0)), moment, air)

    ways: tuple[tuple[str, str, float, Callable[[float], ClearSky]], ...] = (
        ("tilt", "deg", by.tilt_deg, tilted),
        ("azimuth", "deg", by.azimuth_deg, turned),
        ("clock", "s", by.clock_s, later),
        ("turbidity", "Linke's", by.turbidity, hazier),
        ("albedo", "share", by.albedo, brighter),
    )
    for name, unit, sigma, way in ways:
        yield SkyTerm(name, sigma, unit, max(abs(_off(way, step, sky)) for step in (-sigma, sigma)))


def _off(way: Callable[[float], ClearSky], step: float, sky: ClearSky) -> float:
    """By how much a step moves the light; a step that ends in the dark moves all of it. [W/m2]"""
    try:
        return way(step).seen_w_m2 - sky.seen_w_m2
    except SkyError:
        return sky.seen_w_m2


def _shares(sky: ClearSky, by: Doubt) -> Iterator[SkyTerm]:
    """Terms that are shares of the light."""
    seen = sky.seen_w_m2
    yield SkyTerm("model of the clear sky", by.model_share, "share", by.model_share * seen)
    colours = by.colours_share + by.colours_share_per_air_mass * abs(sky.sun.air_mass - 1.5)
    yield SkyTerm("colours of the light", colours, "share", colours * seen)
