"""A corner clip as it is made: its legs, its holes, and the blank it is bent or cut from.

    sawn   aluminium: a slice off a bar of angle, nothing is bent
    bent   stainless: a strip of sheet bent once; the blank is shorter than both legs by the bend
    flat   on seats: an L cut from plate

Legs run from the outside of the heel; a clip outside of a tube's corner has the tube within it. How far a
blank is shorter, for a right angle with r inside and t thick, by the neutral line at k t / 2 from the inside:

    v = pi/2 (r + k t / 2) - 2 (r + t),  k = 0.65 + 0.5 log10(r / t), 1 at most

DIN 6935 (recalled). r = t for soft stainless sheet: common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from panewright.frame.support.clip import Clip
from panewright.structure.corners.corner import TOE_MM
from panewright.structure.drilling.frame_plan import FramePlan, Hole, RailPiece
from panewright.structure.drilling.mount import Leg

Kind = Literal["sawn", "bent", "flat"]
Pair = tuple[float, float]


@dataclass(frozen=True, slots=True)
class ClipLeg:
    """One leg of a clip, from the outside of its heel."""

    rail: str  #: whose it lies on
    long_mm: float  #: at least
    holes_mm: Pair


@dataclass(frozen=True, slots=True)
class ClipCut:
    """One clip to make; all four are alike, or mirrored where their legs are not."""

    clip: Clip
    kind: Kind
    leg: Leg  #: of the rails, that it lies on
    outside: bool  #: it holds the corner from without
    level_mm: float  #: line of the holes, from the outside of the rail's other leg
    hole_mm: float
    legs: tuple[ClipLeg, ClipLeg]  #: on the bottom rail, on the right one

    @property
    def alike(self) -> bool:
        """Whether both legs are the same, so that a clip fits every corner."""
        return math.isclose(self.legs[0].long_mm, self.legs[1].long_mm)

    @property
    def radius_mm(self) -> float:
        """Of the bend, inside; 0 where nothing is bent. [mm]"""
        return self.clip.wall_mm if self.kind == "bent" else 0.0

    @property
    def bend_mm(self) -> float:
        """What the bend adds to both legs, less than 0. [mm]"""
        return bend_allowance_mm(self.clip.wall_mm, self.radius_mm) if self.kind == "bent" else 0.0

    @property
    def blank_mm(self) -> float:
        """Length of the strip before it is bent; of both legs where it is not. [mm]"""
        return sum(leg.long_mm for leg in self.legs) + self.bend_mm

    @property
    def blank_holes_mm(self) -> tuple[float, ...]:
        """Holes of the strip from the end of its first leg. [mm]"""
        first, second = self.legs
        return (
            *(first.long_mm - at for at in reversed(first.holes_mm)),
            *(first.long_mm + self.bend_mm + at for at in second.holes_mm),
        )

    @property
    def bend_line_mm(self) -> float:
        """Middle of the bend from the end of the strip's first leg. [mm]"""
        return self.legs[0].long_mm + self.bend_mm / 2


def bend_allowance_mm(thick_mm: float, radius_mm: float) -> float:
    """What a right-angled bend adds to the outside lengths of both legs; less than 0. [mm]

    >>> round(bend_allowance_mm(2.0, 2.0), 2)
    -3.84
    """
    if thick_mm <= 0 or radius_mm <= 0:
        raise ValueError(f"a bend has a thickness and a radius, got {thick_mm} and {radius_mm}")
    neutral = min(1.0, 0.65 + 0.5 * math.log10(radius_mm / thick_mm)) * thick_mm / 2
    return math.pi / 2 * (radius_mm + neutral) - 2 * (radius_mm + thick_mm)


def clip_cut(frame: FramePlan) -> ClipCut | None:
    """The clip of the frame's corners; None where they are welded."""
    if frame.joint is None or not frame.corner_holes:
        return None
    clip, first = frame.joint.clip, frame.corner_holes[0]
    outside = frame.rail.profile == "tube"
    if first.leg == "seat":
        kind: Kind = "flat"
        heel = clip.wide_mm / 2 - first.across_mm  # of an L whose legs lie on the holes' lines
    else:
        kind = "sawn" if clip.metal == "aluminium" else "bent"
        heel = clip.wall_mm if outside else -frame.rail.wall_mm
    legs = tuple(_leg(piece, frame, heel) for piece in frame.pieces[:2])
    return ClipCut(clip, kind, first.leg, outside, first.across_mm, first.diameter_mm, (legs[0], legs[1]))


def _leg(piece: RailPiece, frame: FramePlan, heel_mm: float) -> ClipLeg:
    """A leg by the holes nearest to the rail's first end; `heel_mm` out from the frame's corner."""
    near = sorted(hole.along_mm for hole in _corner(piece))[:2]
    first, second = (along + short_mm(piece, frame) + heel_mm for along in near)
    return ClipLeg(piece.name, second + TOE_MM, (first, second))


def _corner(piece: RailPiece) -> Iterator[Hole]:
    return (hole for hole in piece.holes if hole.purpose == "corner")


def short_mm(piece: RailPiece, frame: FramePlan) -> float:
    """How far a rail's end stays behind the frame's outer corner. [mm]"""
    side = piece.name in ("left rail", "right rail")
    return ((frame.outer_height_mm if side else frame.outer_width_mm) - piece.length_mm) / 2
