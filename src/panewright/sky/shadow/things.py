"""What stands round a panel: places in metres east and north of a chosen point and above its ground.

Each thing is told as what the sun sees of it, one flat shape with straight edges. A post is a rectangle that
turns with the sun; a crown is the outline of an ellipsoid, an ellipse of the same width and of the height

    2 sqrt(c^2 cos^2 h + a^2 sin^2 h)

seen at the sun's height h, a and c being its half width and half height. Walls and slabs stay as they are.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import isfinite, radians

import numpy as np

from panewright.errors import Problem, SkyError
from panewright.sky.hours import Floats
from panewright.sky.place import Plane

OPAQUE = (0.0,) * 12
POST, CROWN, FLAT = 0, 1, 2
CORNERS = 4  #: of what is flat
FIGURES = 3 * CORNERS


@dataclass(frozen=True, slots=True)
class Post:
    """A post, a chimney, a trunk: as wide from every side."""

    east_m: float
    north_m: float
    height_m: float
    width_m: float
    foot_m: float = 0.0  #: height at which it begins

    def __post_init__(self) -> None:
        _must_be(("height", self.height_m - self.foot_m), ("width", self.width_m))


@dataclass(frozen=True, slots=True)
class Crown:
    """A tree's crown, and how much light it lets through in each month."""

    east_m: float
    north_m: float
    middle_m: float  #: height of its middle
    width_m: float
    height_m: float  #: from its lowest to its highest twig
    lets_through: tuple[float, ...] = OPAQUE  #: January first

    def __post_init__(self) -> None:
        _must_be(("width", self.width_m), ("height", self.height_m))
        if len(self.lets_through) != 12 or not all(0 <= each <= 1 for each in self.lets_through):
            cure = "Give twelve shares of the light from 0 to 1, January first."
            raise SkyError([Problem("A crown lets a share of the light through in each month.", cure)])


@dataclass(frozen=True, slots=True)
class Wall:
    """An upright wall from one point to another."""

    from_m: tuple[float, float]  #: east, north
    to_m: tuple[float, float]
    height_m: float
    foot_m: float = 0.0

    def __post_init__(self) -> None:
        length = float(np.hypot(self.to_m[0] - self.from_m[0], self.to_m[1] - self.from_m[1]))
        _must_be(("height", self.height_m - self.foot_m), ("length", length))


@dataclass(frozen=True, slots=True)
class Slab:
    """A flat rectangle such as the next row of panels, by its lower left corner seen from its face."""

    corner_m: tuple[float, float, float]  #: east, north, up
    plane: Plane
    width_m: float
    length_m: float  #: up its slope

    def __post_init__(self) -> None:
        _must_be(("width", self.width_m), ("length", self.length_m))


Thing = Post | Crown | Wall | Slab


def _must_be(*sizes: tuple[str, float]) -> None:
    problems = [
        Problem("This is no size.", "Give metres above 0.", key=name, value=f"{size:g}")
        for name, size in sizes
        if not (isfinite(size) and size > 0)
    ]
    if problems:
        raise SkyError(problems)


def axes(plane: Plane) -> tuple[Floats, Floats, Floats]:
    """Unit vectors of a plane (east, north, up): to the right seen from its face, up its slope, its normal.

    >>> [(each.round(3) + 0.0).tolist() for each in axes(Plane(90, 180))]
    [[1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, -1.0, 0.0]]
    """
    tilt, turned = radians(plane.tilt_deg), radians(plane.azimuth_deg)
    flat = np.array([np.sin(turned), np.cos(turned), 0.0])
    normal = np.sin(tilt) * flat + np.array([0.0, 0.0, np.cos(tilt)])
    up = -np.cos(tilt) * flat + np.array([0.0, 0.0, np.sin(tilt)])
    return np.cross(up, normal), up, normal


def figures(thing: Thing) -> tuple[int, Floats]:
    """Kind and figures of a thing, as the loops take it."""
    if isinstance(thing, Post):
        row = (thing.east_m, thing.north_m, thing.foot_m, thing.height_m, thing.width_m)
        return POST, np.array([*row, *(0.0,) * (FIGURES - len(row))])
    if isinstance(thing, Crown):
        row = (thing.east_m, thing.north_m, thing.middle_m, thing.width_m / 2, thing.height_m / 2)
        return CROWN, np.array([*row, *(0.0,) * (FIGURES - len(row))])
    return FLAT, np.array([each for corner in _corners(thing) for each in corner])


def _corners(thing: Wall | Slab) -> Iterator[Floats]:
    if isinstance(thing, Wall):
        for (east, north), up in zip(
            (thing.from_m, thing.to_m, thing.to_m, thing.from_m),
            (thing.foot_m, thing.foot_m, thing.height_m, thing.height_m),
            strict=True,
        ):
            yield np.array([east, north, up])
        return
    right, up_slope, _ = axes(thing.plane)
    first = np.array(thing.corner_m)
    for across, along in ((0, 0), (1, 0), (1, 1), (0, 1)):
        yield first + across * thing.width_m * right + along * thing.length_m * up_slope


def let_through(thing: Thing) -> tuple[float, ...]:
    """Shares of the light it lets through, January first."""
    return thing.lets_through if isinstance(thing, Crown) else OPAQUE
