"""Which way the hand moves: a line with a filled head, and a meter with its two leads."""

from __future__ import annotations

import math
from collections.abc import Iterator

from panewright.drawing.drawing import Arc, Item, Path, Point
from panewright.layup.drawn.signs import centred


def arrow(start: Point, end: Point, size_mm: float) -> Iterator[Item]:
    """From start to end."""
    long = math.dist(start, end) or 1.0
    along = (end[0] - start[0]) / long, (end[1] - start[1]) / long
    foot = end[0] - size_mm * along[0], end[1] - size_mm * along[1]
    half = 0.4 * size_mm
    left = foot[0] - half * along[1], foot[1] + half * along[0]
    right = foot[0] + half * along[1], foot[1] - half * along[0]
    yield Path((start, foot), "ink")
    yield Path((end, left, right), "ink", closed=True, filled=True)


def meter(middle: Point, words: str, ends: tuple[Point, Point], size_mm: float) -> Iterator[Item]:
    """A round meter and a line from it to each of two points."""
    for end in ends:
        long = math.dist(middle, end) or 1.0
        edge = tuple(middle[n] + (end[n] - middle[n]) * size_mm / long for n in (0, 1))
        yield Path(((edge[0], edge[1]), end), "ink")
    yield Arc(middle, size_mm, "plus", filled=True)
    yield centred(words, middle, 0.62 * size_mm, "text", bold=True)
