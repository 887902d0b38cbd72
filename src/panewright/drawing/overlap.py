"""Words that lie on other words: what no figure may have.

Boxes are taken from foot to capital height and a shade narrower than the line, so that words may stand
close; turned boxes are compared by the separating-axis rule.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations

from panewright.drawing.bounds import text_corners
from panewright.drawing.dimension import explode
from panewright.drawing.drawing import Dimension, Drawing, Point, Text
from panewright.drawing.lettering import CAPITAL

_TOUCH = 1e-6  # mm; boxes that only touch do not overlap


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
