"""Where a panel stands, how it is turned, and the air over it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import isfinite

from panewright.errors import Problem, SkyError


@dataclass(frozen=True, slots=True)
class Place:
    """A point on the ground; `SkyError` where there is none."""

    latitude_deg: float  #: north positive
    longitude_deg: float  #: east positive
    altitude_m: float = 0.0

    def __post_init__(self) -> None:
        _must_hold(
            _within("latitude", self.latitude_deg, (-90, 90), "degrees, north positive"),
            _within("longitude", self.longitude_deg, (-180, 180), "degrees, east positive"),
            _within("altitude", self.altitude_m, (-450, 6000), "metres"),
        )


@dataclass(frozen=True, slots=True)
class Plane:
    """How a panel is turned; `SkyError` where it cannot be."""

    tilt_deg: float  #: 0 lies flat, 90 stands upright
    azimuth_deg: float  #: where its face looks, from north over east: 180 is south
    albedo: float = 0.2  #: light that the ground throws back; grass and soil, common practice

    def __post_init__(self) -> None:
        _must_hold(
            _within("tilt", self.tilt_deg, (0, 90), "degrees from flat"),
            _within("azimuth", self.azimuth_deg, (0, 360), "degrees from north over east"),
            _within("albedo", self.albedo, (0, 1), "a share of the light"),
        )


@dataclass(frozen=True, slots=True)
class Air:
    """The air a ray goes through; what is None is taken from the place and the month."""

    turbidity: float | None = None  #: Linke's: 2 is very clear, 3 clear, 5 hazy
    pressure_pa: float | None = None
    air_c: float = 12.0  #: bends the rays a little; hardly matters

    def __post_init__(self) -> None:
        _must_hold(
            () if self.turbidity is None else _within("turbidity", self.turbidity, (1, 12), "Linke's"),
            () if self.pressure_pa is None else _within("pressure", self.pressure_pa, (3e4, 1.1e5), "Pa"),
            _within("air", self.air_c, (-60, 60), "degC"),
        )


def _within(key: str, value: float, span: tuple[float, float], words: str) -> Iterator[Problem]:
    low, high = span
    if not (isfinite(value) and low <= value <= high):
        cure = f"Give {low:g} to {high:g}, {words}."
        yield Problem("This cannot be.", cure, key=key, value=f"{value:g}")


def _must_hold(*found: Iterator[Problem] | tuple[Problem, ...]) -> None:
    if problems := [problem for each in found for problem in each]:
        raise SkyError(problems)
