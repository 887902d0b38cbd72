"""How a plate is held out of plane, and what presses on it.

A side that is held turns freely; a clip bears by an even pressure under its patch and lets the pane turn over
it, as a clip with a soft pad does: its mean deflection is nothing. In the plane nothing is held. What a point
would bear has no stress that theory could name, so a clip has a width along the side and a depth onto the
pane, and a hand or a knee a size.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from panewright.glass.plate.bending import Plate

Sides = Literal["four sides", "two long sides", "two short sides", "clips"]
Place = tuple[float, float, float, float]  #: middle along long and short side, size along both [mm]


@dataclass(frozen=True, slots=True)
class Clips:
    """Clips on opposite sides alike: the outer ones so far from the corners, the rest evenly between."""

    on_long: int  #: on each long side
    on_short: int = 0  #: on each short side
    long_from_end_mm: float = 0.0  #: middle of the outer clip from the corner
    short_from_end_mm: float = 0.0
    width_mm: float = 40.0  #: along the side
    depth_mm: float = 15.0  #: from the edge onto the pane

    def __post_init__(self) -> None:
        if min(self.on_long, self.on_short) < 0 or max(self.on_long, self.on_short) < 1:
            raise ValueError(f"a pane on clips has some, got {self}")
        if self.on_long + self.on_short < 2:
            raise ValueError(f"a pane on one clip a side tips over, got {self}")
        if min(self.width_mm, self.depth_mm) <= 0:
            raise ValueError(f"a clip has a width and a depth, got {self}")


@dataclass(frozen=True, slots=True)
class Supported:
    """A plate and what holds it out of plane."""

    plate: Plate
    sides: Sides = "four sides"
    clips: Clips | None = None

    def __post_init__(self) -> None:
        if (self.sides == "clips") != (self.clips is not None):
            raise ValueError(f"clips are given where a plate is held by clips, and only there, got {self}")
        if self.clips is not None and not self._clips_fit(self.clips):
            raise ValueError(f"clips lie within their sides, side by side, got {self}")

    def _clips_fit(self, clips: Clips) -> bool:
        plate = self.plate
        return all(
            _row_fits(count, from_end, side, clips.width_mm) and 2 * clips.depth_mm < across
            for count, from_end, side, across in (
                (clips.on_long, clips.long_from_end_mm, plate.long_mm, plate.short_mm),
                (clips.on_short, clips.short_from_end_mm, plate.short_mm, plate.long_mm),
            )
            if count
        )

    @property
    def held(self) -> tuple[bool, bool]:
        """Whether the ends of the long way are held, that is the short sides, and those of the short way."""
        return self.sides in ("four sides", "two short sides"), self.sides in ("four sides", "two long sides")

    @property
    def clip_places(self) -> tuple[Place, ...]:
        """Every clip from the pane's middle. [mm]"""
        clips, plate = self.clips, self.plate
        if clips is None:
            return ()
        edge_y, edge_x = (plate.short_mm - clips.depth_mm) / 2, (plate.long_mm - clips.depth_mm) / 2
        along = _row(clips.on_long, clips.long_from_end_mm, plate.long_mm)
        across = _row(clips.on_short, clips.short_from_end_mm, plate.short_mm)
        long = tuple((x, s * edge_y, clips.width_mm, clips.depth_mm) for x in along for s in (1, -1))
        return long + tuple((s * edge_x, y, clips.depth_mm, clips.width_mm) for y in across for s in (1, -1))


def _row(count: int, from_end_mm: float, side_mm: float) -> tuple[float, ...]:
    """Middles of clips along a side from its middle; one alone sits in the middle."""
    if count < 2:
        return (0.0,) * count
    return tuple(float(x) for x in (side_mm / 2 - from_end_mm) * np.linspace(-1, 1, count))


def _row_fits(count: int, from_end_mm: float, side_mm: float, width_mm: float) -> bool:
    if count < 2:
        return width_mm <= side_mm
    return from_end_mm >= width_mm / 2 and side_mm - 2 * from_end_mm >= (count - 1) * width_mm


@dataclass(frozen=True, slots=True)
class Patch:
    """A force spread evenly over a rectangle; its middle from the pane's middle."""

    force_n: float
    along_mm: float = 0.0  #: of its middle, along the long side
    across_mm: float = 0.0
    long_mm: float = 100.0  #: its size along the long side
    short_mm: float = 100.0

    def __post_init__(self) -> None:
        if not self.force_n >= 0 or min(self.long_mm, self.short_mm) <= 0:
            raise ValueError(f"a patch has a force and a size, got {self}")

    def within(self, plate: Plate) -> bool:
        """Whether it lies on the plate."""
        dust = 1e-9 * plate.long_mm
        return (
            abs(self.along_mm) + self.long_mm / 2 <= plate.long_mm / 2 + dust
            and abs(self.across_mm) + self.short_mm / 2 <= plate.short_mm / 2 + dust
        )


@dataclass(frozen=True, slots=True)
class Pressing:
    """What presses on one face: an even pressure and patches, all growing together."""

    pressure_pa: float = 0.0
    patches: tuple[Patch, ...] = ()

    def __post_init__(self) -> None:
        if not self.pressure_pa >= 0:
            raise ValueError(f"a pressure is not negative, got {self}")
