"""Words that lie on other words, and words crossed by a line: what no figure may have.

Boxes are taken from foot to capital height and a shade narrower than the line, so that words may stand
close; turned boxes are compared by the separating-axis rule. Only tests look for such places: a figure is
made so that there are none.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from panewright.drawing.bounds import text_corners
from panewright.drawing.dimension import explode
from panewright.drawing.drawing import Arc, Dimension, Drawing, Layer, Path, Point, Text
from panewright.drawing.lettering import CAPITAL, text_width_mm

_TOUCH = 1e-6  # mm; boxes that only touch do not overlap
_SHADE = 0.06  # of the letter body: a line may touch the rim of a letter's box
_UNSEEN = ("grid", "band")


def texts(drawing: Drawing, system: str = "metric") -> tuple[Text, ...]:
    """Every line of words in a drawing, the figures of its dimensions among them."""
    found: list[Text] = []
    for item in drawing.items:
        if isinstance(item, Text):
            found.append(item)
        elif isinstance(item, Dimension):
            found += [part for part in explode(item, system) if isinstance(part, Text)]
    return tuple(text for text in found if text.words.strip())


def overlaps(drawing: Drawing, system: str = "metric") -> tuple[tuple[str, str], ...]:
    """Pairs of lines of words that lie on each other; empty for a clean drawing."""
    boxes = [(text.words, text_corners(text, CAPITAL, 0.0)) for text in texts(drawing, system)]
    spans = [_span(box) for _, box in boxes]
    return tuple(
        (boxes[i][0], boxes[j][0])
        for i, j in combinations(range(len(boxes)), 2)
        if _near(spans[i], spans[j]) and boxes_overlap(boxes[i][1], boxes[j][1])
    )


def boxes_overlap(one: Sequence[Point], other: Sequence[Point]) -> bool:
    """Whether two convex boxes share more than an edge."""
    return not any(_apart(one, other, edge) for box in (one, other) for edge in _edges(box))


def _edges(box: Sequence[Point]) -> list[Point]:
    return [(b[0] - a[0], b[1] - a[1]) for a, b in zip(box, (*box[1:], box[0]), strict=True)]


def _apart(one: Sequence[Point], other: Sequence[Point], edge: Point) -> bool:
    length = math.hypot(*edge)
    if length < _TOUCH:
        return False
    normal = (-edge[1] / length, edge[0] / length)
    first = [p[0] * normal[0] + p[1] * normal[1] for p in one]
    second = [p[0] * normal[0] + p[1] * normal[1] for p in other]
    return max(first) <= min(second) + _TOUCH or max(second) <= min(first) + _TOUCH


def _span(box: Sequence[Point]) -> tuple[float, float, float, float]:
    xs, ys = [p[0] for p in box], [p[1] for p in box]
    return min(xs), min(ys), max(xs), max(ys)


def _near(one: tuple[float, float, float, float], other: tuple[float, float, float, float]) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


@dataclass(frozen=True, slots=True)
class _Line:
    """Straight pieces of one item, where it stands from the back, and the rectangle round it."""

    points: tuple[Point, ...]
    layer: Layer
    place: int
    filled: bool
    span: tuple[float, float, float, float]


def crossed(drawing: Drawing, system: str = "metric") -> tuple[tuple[str, str], ...]:
    """Words with the layer of each line or outline that runs through them; empty for a clean drawing.

    Words may stand on a filled shape: only outlines cross, and a line under a shape that lies wholly
    behind the words is not seen. A chart's grid is barely seen and does not count.
    """
    lines = list(_lines(drawing, system))
    hits: list[tuple[str, str]] = []
    for place, text in _placed_texts(drawing, system):
        box = text_corners(text, CAPITAL, 0.0)
        span = _span(box)
        near = [line for line in lines if _near(line.span, span)]
        patch = max((line.place for line in near if line.place < place and _holds(line, span)), default=-1)
        hits += [
            (text.words, line.layer) for line in near if line.place >= patch and _runs_through(line, text)
        ]
    return tuple(dict.fromkeys(hits))


def _placed_texts(drawing: Drawing, system: str) -> Iterator[tuple[int, Text]]:
    for place, item in enumerate(drawing.items):
        for part in explode(item, system) if isinstance(item, Dimension) else (item,):
            if isinstance(part, Text) and part.words.strip():
                yield place, part


def _lines(drawing: Drawing, system: str) -> Iterator[_Line]:
    for place, item in enumerate(drawing.items):
        for part in explode(item, system) if isinstance(item, Dimension) else (item,):
            if isinstance(part, Path | Arc) and part.layer not in _UNSEEN:
                points = _round(part) if isinstance(part, Arc) else part.points
                if isinstance(part, Path) and part.closed:
                    points = (*points, points[0])
                yield _Line(points, part.layer, place, part.filled, _span(points))


def _round(arc: Arc) -> tuple[Point, ...]:
    """An arc as straight pieces of 15 degrees or less."""
    span = arc.end_deg - arc.start_deg
    span = span + 360.0 if span <= 0 else span
    steps = math.ceil(span / 15.0)
    angles = (math.radians(arc.start_deg + span * step / steps) for step in range(steps + 1))
    (x, y), r = arc.centre, arc.radius_mm
    return tuple((x + r * math.cos(angle), y + r * math.sin(angle)) for angle in angles)


def _holds(line: _Line, span: tuple[float, float, float, float]) -> bool:
    """Whether a filled shape lies behind the whole of an upright rectangle."""
    corners = ((span[0], span[1]), (span[2], span[1]), (span[2], span[3]), (span[0], span[3]))
    return line.filled and all(_inside(corner, line.points) for corner in corners)


def _inside(point: Point, outline: Sequence[Point]) -> bool:
    """Whether an outline goes round a point (a ray to the right meets it an odd number of times)."""
    x, y = point
    met = False
    for (x0, y0), (x1, y1) in pairwise(outline):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            met = not met
    return met


def _runs_through(line: _Line, text: Text) -> bool:
    """Whether any piece of a line enters the letters, a shade smaller than their box."""
    turn = math.radians(-text.angle_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    turned = [
        (dx * cos - dy * sin, dx * sin + dy * cos)
        for dx, dy in ((x - text.at[0], y - text.at[1]) for x, y in line.points)
    ]
    width, shade = text_width_mm(text.words, text.height_mm, text.bold), _SHADE * text.height_mm
    left = {"left": 0.0, "centre": -width / 2, "right": -width}[text.align] + shade
    letters = (left, shade, left + width - 2 * shade, CAPITAL * text.height_mm - shade)
    return any(_enters(start, end, letters) for start, end in pairwise(turned))


def _enters(start: Point, end: Point, room: tuple[float, float, float, float]) -> bool:
    """Whether a straight piece has a part inside an upright rectangle (Liang and Barsky, 1984)."""
    first, last = 0.0, 1.0
    for low, high, a, b in ((room[0], room[2], start[0], end[0]), (room[1], room[3], start[1], end[1])):
        if abs(b - a) < _TOUCH:
            if not low < a < high:
                return False
            continue
        near, far = sorted(((low - a) / (b - a), (high - a) / (b - a)))
        first, last = max(first, near), min(last, far)
    return last - first > _TOUCH
