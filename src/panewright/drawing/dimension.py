"""A dimension taken apart into lines, arrow heads and words, the same for every renderer.

The figure is made from the length, here and nowhere else, so it cannot disagree with the geometry. Lines
keep a small distance from the part and run a little past the dimension line (ISO 129-1 habit). Where the
arrows would not fit between the witness lines they point inward from outside.
"""

from __future__ import annotations

import math

from panewright import units
from panewright.drawing.drawing import Dimension, Item, Path, Point, Text
from panewright.drawing.lettering import text_width_mm

_RESOLUTION_MM = 0.005  # finer than a maker can measure; a figure is never rounded more than this


def figure_digits(length_mm: float) -> int:
    """The fewest significant digits that tell a length to within 0.005 mm.

    >>> [figure_digits(length) for length in (156.75, 1000.0, 52.3333, 3.2, 0.25)]
    [5, 4, 4, 2, 2]
    """
    if length_mm <= 0:
        return 1
    decimals = next((d for d in (0, 1) if abs(round(length_mm, d) - length_mm) <= _RESOLUTION_MM), 2)
    return max(1, decimals + math.floor(math.log10(length_mm)) + 1)


def dimension_words(dimension: Dimension, system: str = "metric") -> str:
    """The figure of a dimension with its unit and note."""
    length = dimension.length_mm
    figure = units.show(length, "mm", system, figure_digits(length))
    return f"{figure} {dimension.note}".strip()


def explode(dimension: Dimension, system: str = "metric") -> tuple[Item, ...]:
    """The lines, arrow heads and words that draw a dimension."""
    start, end, along, left = line_ends(dimension)
    words = dimension_words(dimension, system)
    size, length = dimension.height_mm, math.dist(start, end)
    text_width = text_width_mm(words, size)
    inside = length >= 2.4 * size
    items: list[Item] = [*_witness_lines(dimension, start, end)]
    if inside:
        items.append(Path((start, end), "dimension"))
        items += [_arrow(start, along, size), _arrow(end, _turned_back(along), size)]
    else:
        tail = 1.6 * size
        items.append(Path((_past(start, along, -tail), _past(end, along, tail)), "dimension"))
        items += [_arrow(start, _turned_back(along), size), _arrow(end, along, size)]
    fits = not dimension.outside and text_width <= length - (1.6 * size if inside else 0)
    items.append(_figure(words, start, end, along, left, size, fits, inside))
    return tuple(items)


def line_ends(dimension: Dimension) -> tuple[Point, Point, Point, Point]:
    """Both ends of the dimension line, its direction, and the direction to its left.

    For 'x' and 'y' the line takes the start's level and is moved from there; where the offset points
    back past the end, the further of both levels is used so that the line stays outside the part.
    """
    (x0, y0), (x1, y1) = dimension.start, dimension.end
    if dimension.axis == "x":
        along: Point = (1.0 if x1 >= x0 else -1.0, 0.0)
    elif dimension.axis == "y":
        along = (0.0, 1.0 if y1 >= y0 else -1.0)
    else:
        length = dimension.length_mm or 1.0
        along = ((x1 - x0) / length, (y1 - y0) / length)
    left = (-along[1], along[0])
    rise = (x1 - x0) * left[0] + (y1 - y0) * left[1]  # how far the end lies left of the start
    outer = max(0.0, rise) if dimension.offset_mm >= 0 else min(0.0, rise)
    start = _past(dimension.start, left, outer + dimension.offset_mm)
    return start, _past(start, along, dimension.length_mm), along, left


def _past(point: Point, direction: Point, distance: float) -> Point:
    """The point a distance further in a direction."""
    return point[0] + direction[0] * distance, point[1] + direction[1] * distance


def _turned_back(direction: Point) -> Point:
    return -direction[0], -direction[1]


def _witness_lines(dimension: Dimension, start: Point, end: Point) -> list[Path]:
    """Lines from near the part to a little past the dimension line."""
    gap, past = 0.4 * dimension.height_mm, 0.5 * dimension.height_mm
    lines = []
    for foot, top in ((dimension.start, start), (dimension.end, end)):
        length = math.dist(foot, top)
        if length <= gap:
            continue
        way = ((top[0] - foot[0]) / length, (top[1] - foot[1]) / length)
        lines.append(Path((_past(foot, way, gap), _past(top, way, past)), "dimension"))
    return lines


def _arrow(tip: Point, inward: Point, size: float) -> Path:
    """A slim filled head whose tip touches the witness line and whose body lies inward of it."""
    back = _past(tip, inward, 0.8 * size)
    side = (-inward[1], inward[0])
    half = 0.14 * size
    return Path((tip, _past(back, side, half), _past(back, side, -half)), "dimension", True, True)


def _figure(
    words: str, start: Point, end: Point, along: Point, left: Point, size: float, fits: bool, inside: bool
) -> Text:
    """The words above the dimension line, or past its end where they do not fit between the arrows."""
    angle = math.degrees(math.atan2(along[1], along[0]))
    flipped = angle <= -90 + 1e-9 or angle > 90 + 1e-9  # readable from below or from the right
    if flipped:
        angle += 180 if angle <= 0 else -180
        left = _turned_back(left)
    lift = 0.28 * size
    if fits:
        middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        return Text(_past(middle, left, lift), words, size, "dimension", "centre", angle)
    far = _past(end, along, size * (0.6 if inside else 2.0))
    foot = _past(far, left, -0.33 * size)  # beside the line's end: half a capital lower
    return Text(foot, words, size, "dimension", "right" if flipped else "left", angle)
