"""Metal cut into triangles, and cut finer where it is asked.

First the corners alone: every hole is joined to the outside by a slit, and ears are clipped off what is left.
Edges are then turned until no triangle could be fatter [D]. Finer: a triangle is halved across its longest
edge, and so is the neighbour on the other side of it; where that edge is not the neighbour's longest the
neighbour is halved first [R]. No edge ever ends in the middle of another.

[D] B. Delaunay's empty circles; C. Lawson's flips (recalled).
[R] M. Rivara, longest-edge bisection (recalled).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from panewright.frame.shape.outline import Edge, Outline, Point, edges, meet, side

Triangle = tuple[int, int, int]
Line = tuple[int, int]  # two corners, the lesser number first


class Mesh:
    """Triangles, anticlockwise, over numbered corners."""

    def __init__(self, outlines: Sequence[Outline]) -> None:
        self.points: list[Point] = [point for outline in outlines for point in outline]
        self.loop: dict[int, int] = {}  #: number of the outline that a corner lies on
        first = 0
        for number, outline in enumerate(outlines):
            self.loop |= dict.fromkeys(range(first, first + len(outline)), number)
            first += len(outline)
        self.triangles: dict[int, Triangle] = {}
        self._beside: dict[Line, list[int]] = {}
        self._next = 0
        for triangle in _clipped(self.points, _joined(outlines)):
            self._add(triangle)
        self._fatten()

    def rim(self) -> list[Line]:
        """Edges with metal on one side only."""
        return [line for line, both in self._beside.items() if len(both) == 1]

    def halve(self, chosen: Iterable[int]) -> None:
        """Each of these triangles halved, and others where the edges ask for it."""
        for number in chosen:
            while number in self.triangles:
                self._halve_on_the_way(number)

    def split(self, lines: Iterable[Line]) -> None:
        """Each of these edges halved, and others where the edges ask for it."""
        for line in lines:
            while line in self._beside:
                self._halve_on_the_way(self._beside[line][0])

    def _halve_on_the_way(self, number: int) -> None:
        """From neighbour to neighbour across the longest edge until two agree on it, then cut there."""
        line = self._longest(number)
        while (other := self._across(line, number)) is not None and self._longest(other) != line:
            number, line = other, self._longest(other)
        self._cut(line)

    def _cut(self, line: Line) -> None:
        a, b = line
        (ax, ay), (bx, by) = self.points[a], self.points[b]
        middle = len(self.points)
        self.points.append(((ax + bx) / 2, (ay + by) / 2))
        both = tuple(self._beside[line])
        if len(both) == 1:
            self.loop[middle] = self.loop[a]
        for number in both:
            triangle = self._take(number)
            at = next(place for place in range(3) if triangle[place] not in line)
            tip, left, right = triangle[at], triangle[at - 2], triangle[at - 1]
            self._add((tip, left, middle))
            self._add((tip, middle, right))

    def _across(self, line: Line, number: int) -> int | None:
        return next((other for other in self._beside[line] if other != number), None)

    def _longest(self, number: int) -> Line:
        return max(_lines(self.triangles[number]), key=lambda line: (self._length(line), line))

    def _length(self, line: Line) -> float:
        # rounded: halves of one edge must compare as equal
        return round(math.dist(self.points[line[0]], self.points[line[1]]), 9)

    def _add(self, triangle: Triangle) -> None:
        self.triangles[self._next] = triangle
        for line in _lines(triangle):
            self._beside.setdefault(line, []).append(self._next)
        self._next += 1

    def _take(self, number: int) -> Triangle:
        triangle = self.triangles.pop(number)
        for line in _lines(triangle):
            self._beside[line].remove(number)
            if not self._beside[line]:
                del self._beside[line]
        return triangle

    def _fatten(self) -> None:
        """Edges turned until each triangle's circle holds no corner of its neighbours."""
        waiting = [line for line, both in self._beside.items() if len(both) == 2]
        turns = 50 * len(waiting) + 50  # rounding must not turn one edge for ever
        while waiting and turns:
            line = waiting.pop()
            both = self._beside.get(line, [])
            if len(both) == 2 and (corners := self._turnable(line, both[0], both[1])):
                turns -= 1
                waiting += self._turn(line, corners)

    def _turnable(self, line: Line, one: int, other: int) -> tuple[int, int] | None:
        """The two corners beside an edge, where the edge between them would be the better one."""
        tips = tuple(next(c for c in self.triangles[each] if c not in line) for each in (one, other))
        a, b = (self.points[corner] for corner in line)
        c, d = (self.points[tip] for tip in tips)
        if side(c, d, a) * side(c, d, b) >= 0 or _seen(c, a, b) + _seen(d, a, b) <= math.pi + 1e-9:
            return None
        return tips[0], tips[1]

    def _turn(self, line: Line, tips: tuple[int, int]) -> list[Line]:
        """The edge turned; the four edges round it, to be looked at again."""
        for number in tuple(self._beside[line]):
            self._take(number)
        c, d = tips
        for corner in line:
            ahead = side(self.points[c], self.points[d], self.points[corner]) > 0
            self._add((c, d, corner) if ahead else (d, c, corner))
        return [_line(tip, corner) for tip in tips for corner in line]


def _line(a: int, b: int) -> Line:
    return (a, b) if a < b else (b, a)


def _lines(triangle: Triangle) -> tuple[Line, Line, Line]:
    a, b, c = triangle
    return _line(a, b), _line(b, c), _line(c, a)


def _seen(eye: Point, a: Point, b: Point) -> float:
    """Angle under which an edge is seen from a corner."""
    along = (a[0] - eye[0]) * (b[0] - eye[0]) + (a[1] - eye[1]) * (b[1] - eye[1])
    return math.atan2(abs(side(eye, a, b)), along)


def _joined(outlines: Sequence[Outline]) -> list[int]:
    """One closed walk over the numbers of all corners: along slits into the holes, round them, and out."""
    points = [point for outline in outlines for point in outline]
    walls = [line for outline in outlines for line in edges(outline)]
    walk = list(range(len(outlines[0])))
    first = len(outlines[0])
    waiting: list[list[int]] = []
    for line in outlines[1:]:
        waiting.append(list(range(first, first + len(line))))
        first += len(line)
    while waiting:
        number, at, start = _slit(points, walk, waiting, walls)
        hole = waiting.pop(number)
        walls.append((points[walk[at]], points[hole[start]]))
        walk = [*walk[: at + 1], *hole[start:], *hole[: start + 1], *walk[at:]]
    return walk


def _slit(
    points: list[Point], walk: list[int], holes: list[list[int]], walls: list[Edge]
) -> tuple[int, int, int]:
    """The shortest way through metal from the walk to a hole: which hole, from where, to where."""
    ways = sorted(
        (math.dist(points[a], points[b]), number, at, start)
        for number, hole in enumerate(holes)
        for at, a in enumerate(walk)
        for start, b in enumerate(hole)
    )
    for _, number, at, start in ways:
        a, b = points[walk[at]], points[holes[number][start]]
        if _ahead(points[walk[at - 1]], a, points[walk[(at + 1) % len(walk)]], b) and _clear(a, b, walls):
            return number, at, start
    raise ValueError(f"a hole that no straight way reaches: {len(holes)} holes left")


def _ahead(before: Point, here: Point, after: Point, target: Point) -> bool:
    """Whether a target lies on the metal's side of a corner of the walk."""
    first, second = side(before, here, target) > 0, side(here, after, target) > 0
    return (first and second) if side(before, here, after) > 0 else (first or second)


def _clear(a: Point, b: Point, walls: Iterable[Edge]) -> bool:
    """Whether the way from a to b meets no wall but those that end where it begins or ends."""
    return not any(meet((a, b), wall) for wall in walls if a not in wall and b not in wall)


def _clipped(points: list[Point], walk: list[int]) -> list[Triangle]:
    """Ears clipped off a closed walk until nothing is left."""
    left, found = list(walk), []
    while len(left) > 3:
        at = _ear(points, left)
        found.append((left[at - 1], left[at], left[(at + 1) % len(left)]))
        del left[at]
    return [*found, (left[0], left[1], left[2])]


def _ear(points: list[Point], left: list[int]) -> int:
    """A corner whose neighbours see each other through metal."""
    for at in range(len(left)):
        ear = left[at - 1], left[at], left[(at + 1) % len(left)]
        a, b, c = (points[corner] for corner in ear)
        if side(a, b, c) > 1e-12 * math.dist(a, b) * math.dist(b, c) and not any(
            _holds(a, b, c, points[corner]) for corner in left if corner not in ear
        ):
            return at
    raise ValueError(f"an outline that crosses itself cannot be cut into triangles; {len(left)} corners left")


def _holds(a: Point, b: Point, c: Point, point: Point) -> bool:
    return min(side(a, b, point), side(b, c, point), side(c, a, point)) >= 0
