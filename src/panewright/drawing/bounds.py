"""The smallest upright rectangle round a drawing, words included.

Words are measured with the advance widths of the face they will be set in, and turned with their angle.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import chain
from typing import NamedTuple

from panewright.drawing.dimension import explode
from panewright.drawing.drawing import Arc, Dimension, Drawing, Item, Path, Point, Text
from panewright.drawing.lettering import ASCENT, DESCENT, text_width_mm


class Bounds(NamedTuple):
    """Left, bottom, right and top of a drawing. [mm]"""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width_mm(self) -> float:
        """Right minus left. [mm]"""
        return self.right - self.left

    @property
    def height_mm(self) -> float:
        """Top minus bottom. [mm]"""
        return self.top - self.bottom

    def grown(self, by_mm: float) -> Bounds:
        """The same rectangle with a margin all round."""
        return Bounds(self.left - by_mm, self.bottom - by_mm, self.right + by_mm, self.top + by_mm)

    def meets(self, other: Bounds) -> bool:
        """Whether two rectangles share any point."""
        return (
            self.left <= other.right
            and other.left <= self.right
            and self.bottom <= other.top
            and other.bottom <= self.top
        )


def bounds(drawing: Drawing, system: str = "metric") -> Bounds:
    """The rectangle round all items; a drawing of nothing is a point at the origin. [mm]"""
    return _round_points(chain.from_iterable(extreme_points(item, system) for item in drawing.items))


def item_bounds(item: Item, system: str = "metric") -> Bounds:
    """The rectangle round one item. [mm]"""
    return _round_points(extreme_points(item, system))


def extreme_points(item: Item, system: str = "metric") -> Iterable[Point]:
    """Points whose surrounding rectangle is the item's own."""
    match item:
        case Path():
            return item.points
        case Arc():
            return arc_points(item)
        case Text():
            return text_corners(item)
        case Dimension():
            return [p for part in explode(item, system) for p in extreme_points(part, system)]


def arc_points(arc: Arc) -> list[Point]:
    """Both ends of an arc and every quarter point that lies on it."""
    span = arc.end_deg - arc.start_deg
    if span <= 0:
        span += 360.0
    quarters = range(math.ceil(arc.start_deg / 90), math.floor((arc.start_deg + span) / 90) + 1)
    angles = [arc.start_deg, arc.start_deg + span, *(90.0 * quarter for quarter in quarters)]
    return [_on_circle(arc, math.radians(angle)) for angle in angles]


def _on_circle(arc: Arc, angle: float) -> Point:
    return (
        arc.centre[0] + arc.radius_mm * math.cos(angle),
        arc.centre[1] + arc.radius_mm * math.sin(angle),
    )


def text_corners(text: Text, ascent: float = ASCENT, descent: float = DESCENT) -> tuple[Point, ...]:
    """The four corners of the box round a line of words, from its lower left on."""
    width = text_width_mm(text.words, text.height_mm, text.bold)
    start = {"left": 0.0, "centre": -width / 2, "right": -width}[text.align]
    low, high = -descent * text.height_mm, ascent * text.height_mm
    turn = math.radians(text.angle_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    return tuple(
        (text.at[0] + x * cos - y * sin, text.at[1] + x * sin + y * cos)
        for x, y in ((start, low), (start + width, low), (start + width, high), (start, high))
    )


def _round_points(points: Iterable[Point]) -> Bounds:
    found = list(points) or [(0.0, 0.0)]
    xs, ys = [x for x, _ in found], [y for _, y in found]  # a hundred thousand points are no arguments
    return Bounds(min(xs), min(ys), max(xs), max(ys))
