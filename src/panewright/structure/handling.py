"""Sizes that the order allows: what fits the car, the door or the roof."""

from __future__ import annotations

import math
from itertools import combinations

from panewright.check import Check
from panewright.structure.drilling.frame_plan import FramePlan, Hole

SPACING, END = 2.5, 2.0  #: hole diameters between middles, and from a middle to the rail's end
END_TRIM_MM = 5.0  #: sawn off at each end of a bar as sold; common practice


def size_checks(
    frame: FramePlan, most_long_mm: float | None, most_short_mm: float | None
) -> tuple[Check, ...]:
    """The finished panel against the order's limits; none where the order sets none."""
    sides = sorted((frame.outer_width_mm, frame.outer_height_mm), reverse=True)
    limits = zip(("long", "short"), sides, (most_long_mm, most_short_mm), strict=True)
    return tuple(
        Check(
            f"{name} side of the panel",
            side,
            limit,
            "mm",
            "limit of the order",
            "Take fewer cells, half cells, another number of columns, or a narrower rail.",
            "frame",
        )
        for name, side, limit in limits
        if limit is not None
    )


def hole_checks(frame: FramePlan) -> tuple[Check, Check]:
    """Holes of one leg keep apart and clear of the rail's ends, each by the larger hole's measure."""
    pairs = [
        (SPACING * max(one.diameter_mm, other.diameter_mm), _between_mm(one, other))
        for piece in frame.pieces
        for one, other in combinations(piece.holes, 2)
        if one.leg == other.leg
    ]
    ends = [
        (END * hole.diameter_mm, min(hole.along_mm, piece.length_mm - hole.along_mm) - hole.slot_mm / 2)
        for piece in frame.pieces
        for hole in piece.holes
    ]
    cure = "Put the brackets elsewhere, take fewer of them, or a longer rail."
    return (
        _hole_check("holes apart from each other", min(pairs, key=_room), cure),
        _hole_check("holes clear of the rail's ends", min(ends, key=_room), cure),
    )


def _between_mm(one: Hole, other: Hole) -> float:
    """Middle to middle, of slots from the middles of their nearer ends. [mm]"""
    along = abs(one.along_mm - other.along_mm) - (one.slot_mm + other.slot_mm) / 2
    return math.hypot(max(0.0, along), one.across_mm - other.across_mm)


def _room(needed_and_there: tuple[float, float]) -> float:
    needed, there = needed_and_there
    return there - needed


def _hole_check(rule: str, needed_and_there: tuple[float, float], cure: str) -> Check:
    source = "Aluminum Design Manual J.3: 2.5 diameters apart, 2 from an edge; from memory"
    return Check(rule, *needed_and_there, "mm", source, cure, "frame")


def bar_check(frame: FramePlan, ends_mm: float = 2 * END_TRIM_MM) -> Check:
    """The longest rail comes out of one bar, both of its ends trimmed square."""
    return Check(
        "longest rail out of one bar",
        max(piece.length_mm for piece in frame.pieces) + ends_mm,
        frame.rail.bar_mm,
        "mm",
        "the bar as sold",
        "Take a rail sold in longer bars, or another number of columns.",
        "frame",
    )
