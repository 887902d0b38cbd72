"""The frame as it is sawn and drilled: four rails, their cuts and every hole.

The datum of each rail is its left end, seen from outside the frame with the sunny side up: the bottom rail
starts at the frame's left, the right rail at the bottom, the top rail at the right, the left rail at the top.
One drilling jig then serves opposite rails.

    along   from the datum end
    across  upright: up from the outside of the seat; seat: inward from the outside of the upright

Mitred and welded: each rail is as long as the frame outside, both ends at 45 degrees. Lapped: the side rails
run through, their uprights lap the ends of bottom and top, whose seats are cut back to clear the side rails'
seats; tubes butt. Mitred and lapped corners hold by a clip inside, two fasteners in each of its legs, welded
ones have no holes for one.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass, replace
from typing import Literal

from panewright.enclosure.back_board import board_places
from panewright.frame.rail import Rail
from panewright.frame.support.clip import USUAL, Clip
from panewright.glass.pane import Pane
from panewright.seal.sealant import Bead
from panewright.structure.corners.corner import APART_MM, Corner
from panewright.structure.drilling.board import board_line_mm
from panewright.structure.drilling.fixing import BOARD, BRACKET, CORNER, DRAIN, EARTH, Fixing, Joint, Purpose
from panewright.structure.drilling.mount import Leg, Mount, face_mm, mount_place
from panewright.structure.drilling.slots import Growth, Slots, fixed_place_mm, slots_for
from panewright.structure.rails.rails import Brackets
from panewright.structure.space.space_frame import outer_mm

RailName = Literal["bottom rail", "right rail", "top rail", "left rail"]

_TURNED = 2  # rails from the third on have their datum at the other end
STILL = Growth(0.0)  #: of a rail that nobody asks about

# all common practice, no source
_EARTH_FROM_END_MM = 100.0
_CLEAR_MM = 20.0  # between middles of two holes
_PROUD_MM = 2.0  # an upright this much above the pane's face dams water


@dataclass(frozen=True, slots=True)
class Hole:
    """One hole in one leg of one rail."""

    along_mm: float
    across_mm: float
    diameter_mm: float
    leg: Leg
    purpose: Purpose
    slot_mm: float = 0.0  #: middle to middle of the ends of a slot along the rail; 0 is a round hole


@dataclass(frozen=True, slots=True)
class RailPiece:
    """One rail, cut and drilled."""

    name: RailName
    length_mm: float  #: longest, outside
    cut_deg: float  #: of both ends, 45 mitred, 90 square
    cope_mm: float  #: seat cut back at both ends
    holes: tuple[Hole, ...]


@dataclass(frozen=True, slots=True)
class FramePlan:
    """Four rails round one pane."""

    rail: Rail
    pane_width_mm: float
    pane_height_mm: float
    gap_mm: float
    outer_width_mm: float
    outer_height_mm: float
    corner: Corner
    pieces: tuple[RailPiece, ...]  #: bottom, right, top, left
    joint: Joint | None = None  #: what the corners' clips are fastened with; None where they are welded

    @property
    def rail_length_mm(self) -> float:
        """All rails together, as sawn. [mm]"""
        return sum(piece.length_mm for piece in self.pieces)

    @property
    def corner_holes(self) -> tuple[Hole, ...]:
        """Holes of the corners' clips, in all rails."""
        return tuple(hole for piece in self.pieces for hole in piece.holes if hole.purpose == "corner")

    @property
    def fixed_brackets(self) -> int:
        """Brackets that hold along their rail: those whose holes are round."""
        drilled = (hole for piece in self.pieces for hole in piece.holes)
        return sum(hole.purpose == "bracket" and not hole.slot_mm for hole in drilled)

    @property
    def slot_mm(self) -> float:
        """Of the brackets' slots, middle to middle of their ends; 0 where all holes are round. [mm]"""
        return max((hole.slot_mm for piece in self.pieces for hole in piece.holes), default=0.0)

    def holes(self, purpose: Purpose | None = None) -> int:
        """Holes in all rails, of one purpose or of all."""
        return self.drilled.total() if purpose is None else self.drilled[purpose]

    @property
    def drilled(self) -> Counter[Purpose]:
        """Holes in all rails by their purpose."""
        return Counter(hole.purpose for piece in self.pieces for hole in piece.holes)


def plan_frame(
    pane: Pane,
    bead: Bead,
    rail: Rail,
    brackets: Brackets,
    *,
    upright: bool = True,
    corner: Corner = "mitred",
    joint: Joint | None = None,
    growth: Growth = STILL,
    board: bool = False,
) -> FramePlan:
    """The frame of a pane whose long side stands upright, or lies along the bottom.

    Brackets sit on the long rails; the bottom rail drains and carries the earth. Corner holes are for the
    joint's fastener, or for an M5 where none is told. A board is screwed to all seats from behind.
    """
    fixing = None if corner == "welded" else joint.fixing if joint else CORNER
    band = corner_band(rail, bead, pane)
    width, height = (pane.short_mm, pane.long_mm) if upright else (pane.long_mm, pane.short_mm)
    outer_width, outer_height = outer_mm(width, rail, bead), outer_mm(height, rail, bead)
    pieces = tuple(
        _piece(name, outer_width, outer_height, rail, corner)
        for name in ("bottom rail", "right rail", "top rail", "left rail")
    )
    long_outer = max(outer_width, outer_height)
    along = brackets.places_mm(long_outer)
    drilled = []
    for number, piece in enumerate(pieces):
        sides = number % 2 == 1
        shift = (long_outer - piece.length_mm) / 2 if sides == upright else 0.0
        places = tuple(place - shift for place in along) if sides == upright else ()
        held = _bracket_holes(places, piece.length_mm, number, growth)
        corners = _corner_holes(band, piece.length_mm, joint, fixing) if fixing else ()
        ready = _drilled(piece, held, rail, bead, pane, corners=corners)
        drilled.append(_screwed(ready, board_line_mm(rail, bead)) if board else ready)
    return FramePlan(
        rail, width, height, bead.gap_mm, outer_width, outer_height, corner, tuple(drilled), joint
    )


def _piece(name: RailName, width: float, height: float, rail: Rail, corner: Corner) -> RailPiece:
    side = name in ("left rail", "right rail")
    if corner != "lapped":
        return RailPiece(name, height if side else width, 45.0, 0.0, ())
    if side:
        return RailPiece(name, height, 90.0, 0.0, ())
    if rail.profile == "tube":  # nothing to cut back: it butts on the whole width of the side rail
        return RailPiece(name, width - 2 * rail.seat_mm, 90.0, 0.0, ())
    return RailPiece(name, width - 2 * rail.wall_mm, 90.0, rail.seat_mm - rail.wall_mm, ())


def hole_line(rail: Rail, bead: Bead, pane: Pane) -> Mount:
    """The leg and line of all holes; the middle of the upright where there is no room."""
    return mount_place(rail, bead, pane) or Mount("upright", rail.upright_mm / 2, rail.upright_mm / 2)


@dataclass(frozen=True, slots=True)
class Band:
    """The part of a leg that pane and bead leave free for a corner's clip."""

    leg: Leg
    from_mm: float  #: across, from the outside of the other leg
    to_mm: float

    @property
    def wide_mm(self) -> float:
        """Room for the clip. [mm]"""
        return max(0.0, self.to_mm - self.from_mm)

    @property
    def middle_mm(self) -> float:
        """Line of the corner's fasteners. [mm]"""
        return (self.from_mm + self.to_mm) / 2


def corner_band(rail: Rail, bead: Bead, pane: Pane) -> Band:
    """Above the pane's face; in a seat that holds the bolts, inside the bead; a tube's whole side."""
    if rail.profile == "tube":
        return Band("upright", 0.0, rail.upright_mm)
    if hole_line(rail, bead, pane).leg == "seat":
        return Band("seat", rail.wall_mm + bead.gap_mm + bead.bite_mm, rail.seat_mm)
    top, face = rail.pocket.top_mm, face_mm(rail, bead, pane)
    return Band("upright", face if face < top else 0.0, top)


def corner_from_end_mm(band: Band, clip: Clip) -> float:
    """How far the first fastener of a corner lies from the rail's end. [mm]

    A seat is cut back, lapped all but its wall, mitred by as much as the hole lies inward: it is counted from
    its whole width, and the hole is clear of either cut by what it is clear of an upright's end.
    """
    return clip.from_end_mm + (band.to_mm if band.leg == "seat" else 0.0)


def _corner_holes(band: Band, length_mm: float, joint: Joint | None, fixing: Fixing) -> tuple[Hole, ...]:
    """Two holes at each end of a rail."""
    first = corner_from_end_mm(band, joint.clip if joint else USUAL["stainless"])
    second = first + APART_MM
    return tuple(
        Hole(place, band.middle_mm, fixing.hole_mm, band.leg, "corner")
        for place in (first, second, length_mm - second, length_mm - first)
    )


Bolted = tuple[float, float]  # a bracket's place along the rail, and its slot


def bracket_slots(places_mm: tuple[float, ...], length_mm: float, number: int, growth: Growth) -> Slots:
    """The brackets' holes of one rail by its number; its fixed one lies level with the opposite rail's.

    The top and the left rail have their datum at the other end than those opposite.
    """
    fixed = fixed_place_mm(places_mm, length_mm)
    return slots_for(places_mm, fixed if number < _TURNED else length_mm - fixed, growth)


def _bracket_holes(
    places_mm: tuple[float, ...], length_mm: float, number: int, growth: Growth
) -> tuple[Bolted, ...]:
    if not places_mm:
        return ()
    slots = bracket_slots(places_mm, length_mm, number, growth)
    return tuple(zip(places_mm, slots.long_mm, strict=True))


def _drilled(
    piece: RailPiece,
    held: tuple[Bolted, ...],
    rail: Rail,
    bead: Bead,
    pane: Pane,
    *,
    corners: tuple[Hole, ...],
) -> RailPiece:
    """A rail with its holes, from the datum on."""
    mount = hole_line(rail, bead, pane)
    ends, brackets = tuple(hole.along_mm for hole in corners), tuple(along for along, _ in held)
    holes = list(corners)
    holes += [
        Hole(along, mount.across_mm, BRACKET.hole_mm, mount.leg, "bracket", slot) for along, slot in held
    ]
    if piece.name == "bottom rail":
        drains = _drains(piece.length_mm, (*ends, *brackets), rail, bead, pane)
        taken = (*ends, *brackets, *(drain.along_mm for drain in drains))
        earth = _clear(_EARTH_FROM_END_MM, taken, piece.length_mm)
        holes += [*drains, Hole(earth, mount.across_mm, EARTH.hole_mm, mount.leg, "earth")]
    ordered = sorted(holes, key=lambda hole: (hole.along_mm, hole.leg))
    return RailPiece(piece.name, piece.length_mm, piece.cut_deg, piece.cope_mm, tuple(ordered))


def _screwed(piece: RailPiece, across_mm: float) -> RailPiece:
    """A rail with the holes of a board's screws in its seat, clear of what is there already."""
    taken = tuple(hole.along_mm for hole in piece.holes if hole.leg == "seat")
    places = (_clear(place, taken, piece.length_mm) for place in board_places(piece.length_mm))
    screws = tuple(Hole(place, across_mm, BOARD.hole_mm, "seat", "board") for place in places)
    return replace(piece, holes=tuple(sorted((*piece.holes, *screws), key=lambda at: (at.along_mm, at.leg))))


def _clear(place: float, taken: tuple[float, ...], length_mm: float) -> float:
    """The nearest place on the rail that keeps clear of what is taken; where none does, as asked.

    A rail too short for its holes is told by the check of the holes.
    """
    steps = (sign * step for step in range(math.ceil(length_mm)) for sign in (1, -1))
    on_rail = (place + step for step in steps if _CLEAR_MM <= place + step <= length_mm - _CLEAR_MM)
    free = (at for at in on_rail if all(abs(at - other) >= _CLEAR_MM for other in taken))
    return next(free, place)


def _drains(
    length_mm: float, taken: tuple[float, ...], rail: Rail, bead: Bead, pane: Pane
) -> tuple[Hole, ...]:
    """Two holes near the quarter points, where water stands: above the pane's face, or behind the bead."""
    face, wide = face_mm(rail, bead, pane), DRAIN.hole_mm
    near = _clear(length_mm / 4, taken, length_mm / 2)
    places = (near, length_mm - near)
    if rail.profile != "tube" and rail.pocket.top_mm - face >= wide + _PROUD_MM:
        return tuple(Hole(place, face + wide / 2, wide, "upright", "drain") for place in places)
    behind = rail.wall_mm + bead.gap_mm + bead.bite_mm
    if rail.profile == "tube" or rail.seat_mm - behind < wide + _PROUD_MM:
        return ()
    return tuple(Hole(place, (behind + rail.seat_mm) / 2, wide, "seat", "drain") for place in places)
