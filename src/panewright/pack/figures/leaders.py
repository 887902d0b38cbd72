"""Leaders: lines from places in a drawing to names beside it, in an order in which they do not cross."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import combinations, permutations
from typing import TypeAlias

from panewright.drawing.drawing import Point

Mark: TypeAlias = tuple[Point, str]
"""A place, and what is there."""


def least_crossed(marks: Sequence[Mark], ends: Sequence[Point]) -> list[Mark]:
    """Marks in the order, nearest to the one given, in which the fewest of their lines to the ends cross."""

    def crossings(order: Iterable[Mark]) -> int:
        lines = [(point, end) for (point, _), end in zip(order, ends, strict=True)]
        return sum(_cross(*one, *other) for one, other in combinations(lines, 2))

    return list(min(permutations(marks), key=crossings))  # the first of the best


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether two lines, each from one point to another, cross."""

    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0
