"""Area and moments of a section of any shape, holes too, exactly.

An outline is a closed line through its corners, the last joined to the first. Metal lies to the left of it:
the outer one runs anticlockwise, holes clockwise. Green's theorem turns every integral over the metal into a
sum over edges, each term a polynomial of the corners: nothing is left out.

[G] Green's theorem; the sums for the moments of a polygon stand in many textbooks (recalled, checked against
    rectangles).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

Point = tuple[float, float]
Outline = tuple[Point, ...]
Edge = tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Moments:
    """Of a section about its own centroid."""

    area_mm2: float
    x_mm: float  #: centroid, in the outline's own axes
    y_mm: float
    ix_mm4: float  #: integral of y^2
    iy_mm4: float  #: integral of x^2
    ixy_mm4: float


def edges(outline: Outline) -> Iterator[Edge]:
    """From corner to corner, and back to the first."""
    return pairwise((*outline, outline[0]))


def area_mm2(outline: Outline) -> float:
    """Area inside one closed line, negative where it runs clockwise. [mm2]

    >>> area_mm2(((0.0, 0.0), (2.0, 0.0), (2.0, 3.0)))
    3.0
    """
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in edges(outline)) / 2


def moments(outlines: Iterable[Outline]) -> Moments:
    """Area, centroid and second moments of the metal between outlines.  [G]

    >>> found = moments((((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)),))
    >>> found.area_mm2, found.x_mm, round(found.ix_mm4, 12)
    (4.0, 1.0, 1.333333333333)
    """
    lines = [line for outline in outlines for line in edges(outline)]
    cross = [x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in lines]
    area = math.fsum(cross) / 2
    if not area > 0:
        raise ValueError(f"an outline runs anticlockwise round its metal, a hole clockwise; got {area:g} mm2")
    x = math.fsum(c * (a[0] + b[0]) for c, (a, b) in zip(cross, lines, strict=True)) / (6 * area)
    y = math.fsum(c * (a[1] + b[1]) for c, (a, b) in zip(cross, lines, strict=True)) / (6 * area)
    ix, iy, ixy = _second((ax - x, ay - y, bx - x, by - y) for (ax, ay), (bx, by) in lines)
    return Moments(area, x, y, ix, iy, ixy)


def _second(lines: Iterable[tuple[float, float, float, float]]) -> tuple[float, float, float]:
    """Second moments about the origin, of edges from (ax, ay) to (bx, by). [mm4]"""
    ix, iy, ixy = [], [], []
    for ax, ay, bx, by in lines:
        cross = ax * by - bx * ay
        ix.append(cross * (ay * ay + ay * by + by * by) / 12)
        iy.append(cross * (ax * ax + ax * bx + bx * bx) / 12)
        ixy.append(cross * (2 * ax * ay + ax * by + bx * ay + 2 * bx * by) / 24)
    return math.fsum(ix), math.fsum(iy), math.fsum(ixy)


def turned(outline: Outline, *, hole: bool = False) -> Outline:
    """The same line with its metal on the left, and without corners at which it does not turn."""
    kept = straightened(outline)
    return kept if (area_mm2(kept) < 0) == hole else kept[::-1]


def straightened(outline: Outline) -> Outline:
    """The same line without corners that lie on the straight between their neighbours, or twice in one place.

    >>> straightened(((0.0, 0.0), (1.0, 0.0), (2.0, 0.0), (2.0, 2.0)))
    ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0))
    """
    kept = list(outline)
    at = 0
    while at < len(kept) > 3:
        before, here, after = kept[at - 1], kept[at], kept[(at + 1) % len(kept)]
        long = math.dist(before, here) * math.dist(here, after)
        if abs(side(before, here, after)) <= 1e-9 * long:
            del kept[at]
            at = max(0, at - 1)
        else:
            at += 1
    return tuple(kept)


def side(a: Point, b: Point, c: Point) -> float:
    """Twice the area of a triangle: positive where c lies to the left of the way from a to b. [mm2]"""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def meet(first: Edge, second: Edge) -> bool:
    """Whether two edges have a point in common."""
    (a, b), (c, d) = first, second
    abc, abd, cda, cdb = side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)
    if abc * abd < 0 and cda * cdb < 0:
        return True
    touching = ((abc, c, first), (abd, d, first), (cda, a, second), (cdb, b, second))
    return any(area == 0 and _between(point, edge) for area, point, edge in touching)


def _between(point: Point, edge: Edge) -> bool:
    """Whether a point on the line of an edge lies within the edge."""
    (ax, ay), (bx, by) = edge
    x, y = point
    return min(ax, bx) <= x <= max(ax, bx) and min(ay, by) <= y <= max(ay, by)


def inside(point: Point, outline: Outline) -> bool:
    """Whether a point lies inside a closed line: a ray from it crosses the line an odd number of times."""
    x, y = point
    crossed = False
    for (ax, ay), (bx, by) in edges(outline):
        if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
            crossed = not crossed
    return crossed


def first_crossing(outline: Outline) -> tuple[int, int] | None:
    """The first two edges of a closed line that meet though they are no neighbours; None where it is simple.

    Neighbours meet in their corner; they must not run back on themselves.
    """
    lines = list(edges(outline))
    for one, line in enumerate(lines):
        for other in range(one + 1, len(lines)):
            if _clash(line, lines[other], one, other, len(lines)):
                return one, other
    return None


def _clash(line: Edge, after: Edge, one: int, other: int, count: int) -> bool:
    if other == one + 1:
        return _runs_back(line, after)
    if one == 0 and other == count - 1:
        return _runs_back(after, line)
    return meet(line, after)


def _runs_back(line: Edge, after: Edge) -> bool:
    """Whether an edge goes back along the one before it."""
    (a, b), (_, d) = line, after
    ahead = (b[0] - a[0]) * (d[0] - b[0]) + (b[1] - a[1]) * (d[1] - b[1])
    return a == b or b == d or (side(a, b, d) == 0 and ahead < 0)
