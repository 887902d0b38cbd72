"""The outline of a cell: a rectangle, a wafer with clipped corners, or a strip cut from one.

The silicon is grown as a round ingot of diameter 2R and sawn to a rectangle whose corners may reach past
the circle, so the half width at height y above the wafer's middle is

    x(y) = min(width / 2, sqrt(R^2 - y^2)).

The area is its integral, which has a closed form. Strips cut across the length are equal in length; the
strips at the ends lose corners and are smaller than those between.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache

_CHORD_MM = 0.005  # a straight piece of the outline leaves the true arc by no more than this


@dataclass(frozen=True, slots=True)
class Shape:
    """A cell seen from the front; its busbars run along the length.

    The outline is a rectangle cut by the circle of the round ingot, where there is one. A strip cut from
    a wafer keeps the wafer's circle and says how far its own middle lies from the middle of the wafer.
    """

    width_mm: float  #: across the busbars
    length_mm: float  #: along the busbars
    circle_mm: float | None = None  #: diameter of the ingot's circle; None for a full square
    off_centre_mm: float = 0.0  #: middle of this strip from the middle of its wafer, along the length
    busbars: int = 2
    busbar_width_mm: float = 1.6
    thickness_mm: float = 0.2
    tolerance_mm: float = 0.5  #: each side may be longer or shorter by this much

    def __post_init__(self) -> None:
        if min(self.width_mm, self.length_mm, self.thickness_mm, self.busbar_width_mm) <= 0:
            raise ValueError(f"a cell has positive sides, thickness and busbar width, got {self}")
        if self.busbars < 1 or self.tolerance_mm < 0:
            raise ValueError(f"a cell has a busbar or more and a tolerance of 0 or more, got {self}")
        if self.circle_mm is not None and self.circle_mm <= max(self.width_mm, self.length_mm):
            raise ValueError(f"the circle of the ingot is wider than the wafer's sides, got {self}")

    def __hash__(self) -> int:
        """Of its outline: cells alike in that are few."""
        return hash((self.width_mm, self.length_mm, self.circle_mm, self.off_centre_mm))


@lru_cache(maxsize=256)
def area_mm2(shape: Shape) -> float:
    """Area of the silicon, by geometry; kept, for every cell of a panel is asked for it. [mm2]

    >>> round(area_mm2(Shape(156, 156, circle_mm=200)), 3)
    23895.027
    """
    low, high = _ends_mm(shape)
    return _from_middle_mm2(shape, high) - _from_middle_mm2(shape, low)


def outline(shape: Shape) -> tuple[tuple[float, float], ...]:
    """Corner points round the cell's own middle, counter-clockwise from the lower right. [mm]

    Arcs are cut into chords that leave them by less than 0.005 mm.

    >>> outline(Shape(156, 78))
    ((78.0, -39.0), (78.0, 39.0), (-78.0, 39.0), (-78.0, -39.0))
    """
    right = [(_half_width_mm(shape, y), y - shape.off_centre_mm) for y in _heights_mm(shape)]
    return (*right, *((-x, y) for x, y in reversed(right)))


def strips(shape: Shape, parts: int) -> tuple[Shape, ...]:
    """The wafer cut across its length into `parts` strips of one length, bottom to top.

    >>> [round(area_mm2(strip)) for strip in strips(Shape(156, 156, circle_mm=200), 3)]
    [7892, 8112, 7892]
    """
    if parts < 1:
        raise ValueError(f"a wafer is cut into 1 part or more, got {parts}")
    length = shape.length_mm / parts
    first = shape.off_centre_mm - shape.length_mm / 2 + length / 2
    return tuple(replace(shape, length_mm=length, off_centre_mm=first + i * length) for i in range(parts))


def end_widths_mm(shape: Shape) -> tuple[float, float]:
    """Width of the silicon at its lower and at its upper end. [mm]

    >>> [round(width, 2) for width in end_widths_mm(strips(Shape(156, 156, circle_mm=200), 2)[0])]
    [125.16, 156.0]
    """
    low, high = _ends_mm(shape)
    return 2 * _half_width_mm(shape, low), 2 * _half_width_mm(shape, high)


def _ends_mm(shape: Shape) -> tuple[float, float]:
    """Lower and upper end, from the middle of the wafer. [mm]"""
    return shape.off_centre_mm - shape.length_mm / 2, shape.off_centre_mm + shape.length_mm / 2


def _half_width_mm(shape: Shape, y: float) -> float:
    """Half the width at height y above the wafer's middle. [mm]"""
    if shape.circle_mm is None:
        return shape.width_mm / 2
    return min(shape.width_mm / 2, math.sqrt(max(0.0, (shape.circle_mm / 2) ** 2 - y * y)))


def _clip_starts_mm(shape: Shape) -> float:
    """Height above the wafer's middle at which the circle starts to clip the sides. [mm]"""
    if shape.circle_mm is None:
        return math.inf
    return math.sqrt((shape.circle_mm / 2) ** 2 - (shape.width_mm / 2) ** 2)


def _from_middle_mm2(shape: Shape, y: float) -> float:
    """Area between the wafer's middle line and height y, both sides; negative below. [mm2]"""
    straight = min(abs(y), _clip_starts_mm(shape))
    area = shape.width_mm * straight
    if shape.circle_mm is not None and abs(y) > straight:
        area += _under_circle_mm2(shape.circle_mm / 2, abs(y)) - _under_circle_mm2(
            shape.circle_mm / 2, straight
        )
    return math.copysign(area, y)


def _under_circle_mm2(radius: float, y: float) -> float:
    """Area of a circle's slice between its middle line and height y, both sides. [mm2]"""
    return y * math.sqrt(max(0.0, radius**2 - y**2)) + radius**2 * math.asin(min(1.0, y / radius))


def _heights_mm(shape: Shape) -> list[float]:
    """Heights of the outline's points above the wafer's middle, bottom to top. [mm]"""
    low, high = _ends_mm(shape)
    clip = _clip_starts_mm(shape)
    if shape.circle_mm is None or max(abs(low), abs(high)) <= clip:
        return [low, high]
    lower = _arc_mm(shape.circle_mm / 2, low, min(high, -clip)) if low < -clip else [low]
    upper = _arc_mm(shape.circle_mm / 2, max(low, clip), high) if high > clip else [high]
    return sorted({*lower, *upper})


def _arc_mm(radius: float, low: float, high: float) -> list[float]:
    """Heights along an arc, close enough for chords. [mm]"""
    start, end = math.asin(low / radius), math.asin(high / radius)
    pieces = max(1, math.ceil((end - start) / (2 * math.acos(1 - _CHORD_MM / radius))))
    inner = [radius * math.sin(start + (end - start) * i / pieces) for i in range(1, pieces)]
    return [low, *inner, high]
