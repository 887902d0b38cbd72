"""The straight walls of a rail: how wide each is for its thickness, and what holds its edges.

A wall that is pressed along the rail buckles the sooner the wider and thinner it is, and much sooner where
one of its edges is free ("one edge") than where other walls hold both ("both edges").

    angle      two legs, each free at its tip
    channel    two flanges free at their tips, a web between
    tube       four walls held at both edges
    drawn      every straight line of the outline, over the least thickness found behind it; where a hole lies
               behind, both edges are held; else one is taken as free, on the safe side

Widths are clear: from the face of the next wall to the tip or to the next face.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from panewright.frame.rail import Rail
from panewright.frame.shape.outline import Edge, Outline, edges
from panewright.frame.shape.profile import outlines

Held = Literal["one edge", "both edges"]
_LOOKS = (0.1, 0.3, 0.5, 0.7, 0.9)  # of a line's length: where the metal behind it is measured
_LEAST_MM = 1.0  # shorter lines belong to a fillet


@dataclass(frozen=True, slots=True)
class FlatWall:
    """One straight wall."""

    slenderness: float  #: clear width over thickness
    held: Held


@lru_cache(maxsize=256)
def flat_walls(rail: Rail) -> tuple[FlatWall, ...]:
    """All straight walls of a rail.

    >>> from panewright.frame.rail import Rail
    >>> flat_walls(Rail("L", "angle", 33, 48, 3, "6063-T6", 6000))
    (FlatWall(slenderness=10.0, held='one edge'), FlatWall(slenderness=15.0, held='one edge'))
    """
    seat, upright, wall = rail.seat_mm, rail.upright_mm, rail.wall_mm
    if rail.profile == "drawn":
        return tuple(_drawn(rail))
    if rail.profile == "angle":
        return _walls("one edge", (seat - wall, upright - wall), wall)
    if rail.profile == "channel":
        return (
            *_walls("one edge", (seat - wall,), wall),
            *_walls("both edges", (upright - 2 * wall,), wall),
        )
    return _walls("both edges", (seat - 2 * wall, upright - 2 * wall), wall)


def _walls(held: Held, clear_mm: tuple[float, ...], wall_mm: float) -> tuple[FlatWall, ...]:
    return tuple(FlatWall(clear / wall_mm, held) for clear in clear_mm)


def _drawn(rail: Rail) -> Iterator[FlatWall]:
    """Every straight line, over the least metal behind it."""
    lines = outlines(rail)
    for number, line in enumerate(lines):
        for edge in edges(line):
            long = math.dist(*edge)
            if long >= _LEAST_MM:
                thick, other = min(_behind(edge, look, lines) for look in _LOOKS)
                yield FlatWall(long / thick, "both edges" if number or other else "one edge")


def _behind(edge: Edge, look: float, lines: tuple[Outline, ...]) -> tuple[float, int]:
    """Metal behind a place of an edge [mm], and which line ends it: 0 is the outer one."""
    (ax, ay), (bx, by) = edge
    long = math.dist(*edge)
    inward = -(by - ay) / long, (bx - ax) / long  # metal lies to the left
    place = ax + look * (bx - ax), ay + look * (by - ay)
    ways = (
        (_way(place, inward, other), number)
        for number, line in enumerate(lines)
        for other in edges(line)
        if other != edge
    )
    return min(found for found in ways if found[0] > 1e-9)


def _way(place: tuple[float, float], along: tuple[float, float], other: Edge) -> float:
    """How far it is from a place to another edge, that way; endless where it is not met."""
    (cx, cy), (dx, dy) = other
    across = along[0] * (dy - cy) - along[1] * (dx - cx)
    if abs(across) < 1e-12:
        return math.inf
    fx, fy = cx - place[0], cy - place[1]
    share = (fx * along[1] - fy * along[0]) / across
    return (fx * (dy - cy) - fy * (dx - cx)) / across if -1e-9 <= share <= 1 + 1e-9 else math.inf
