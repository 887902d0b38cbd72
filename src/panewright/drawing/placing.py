"""Where a chart's words go: beside what they name, clear of lines and of other words.

Each label has a few places it may take, best first. A place costs for words it would lie on, for lines it
would cross and for leaving the field; the cheapest place wins, and what is placed is an obstacle for the
next label. The same labels always land in the same places.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from panewright.drawing.drawing import Align, Point

Box = tuple[float, float, float, float]  # left, bottom, right, top

FAR = 100.0  #: dislike from which on a label needs a line to what it names
_ON_WORDS, _OUTSIDE, _ON_LINE = 3000.0, 2000.0, 150.0  # rather far off with a line to it than crossed


@dataclass(frozen=True, slots=True)
class Place:
    """One place a label may take: its foot, its alignment, and how little it is liked."""

    at: Point
    align: Align
    dislike: float = 0.0


Tie = Callable[[Place], tuple[Point, Point] | None]
"""The line from a place to what it names, or None for one that stands beside it."""


@dataclass(slots=True)
class Field:
    """The area labels must stay in, with the lines and words that are there already."""

    area: Box
    lines: list[tuple[Point, Point]] = field(default_factory=list)
    words: list[Box] = field(default_factory=list)

    def add_line(self, points: Sequence[Point], most: int = 60) -> None:
        """Keep a line clear; long lines are thinned, which is near enough for keeping words off them."""
        every = max(1, len(points) // most)
        thin = [*points[:-1:every], points[-1]]
        self.lines += pairwise(thin)

    def best(self, places: Iterable[Place], width: float, height: float, tie: Tie | None = None) -> Place:
        """The cheapest place for words of that size; its box, and the line that ties it, are taken then.

        Where every place near by is taken, any free place of the field will do, the nearest first.
        """
        near = list(places)
        cost, best = self._cheapest(near, width, height, tie)
        if cost >= FAR:
            anywhere = self._anywhere(best.at, width, height)
            cost, best = self._cheapest([best, *anywhere], width, height, tie)
        self.words.append(box_of(best, width, height))
        if tie and (line := tie(best)):
            self.lines.append(line)
        return best

    def _cheapest(
        self, places: Sequence[Place], width: float, height: float, tie: Tie | None
    ) -> tuple[float, Place]:
        """The cheapest place and its cost; none costs less than it is disliked, so most go unasked."""
        best, lowest = places[0], math.inf
        for place in sorted(places, key=lambda place: place.dislike):
            if place.dislike >= lowest:
                break
            cost = self._cost(place, width, height)
            if tie and cost < lowest and (line := tie(place)):
                cost += _ON_WORDS * any(crosses(line, box) and not _holds(box, line[0]) for box in self.words)
            if cost < lowest:
                best, lowest = place, cost
        return lowest, best

    def _anywhere(self, home: Point, width: float, height: float) -> Iterator[Place]:
        """Places all over the field, each the less liked the further off it is."""
        left, bottom, right, top = self.area
        columns = max(1, int((right - left - width) / (width / 3)))
        rows = max(1, int((top - bottom - 1.5 * height) / (0.7 * height)))
        for n in range(rows + 1):
            for m in range(columns + 1):
                x = left + 0.15 * height + m * max(0.0, right - left - width - 0.3 * height) / columns
                y = bottom + 0.4 * height + n * (top - bottom - 1.55 * height) / rows
                yield Place((x, y), "left", FAR + math.dist((x + width / 2, y), home))

    def _cost(self, place: Place, width: float, height: float) -> float:
        left, bottom, right, top = box = box_of(place, width, height)
        area = self.area
        inside = left >= area[0] and bottom >= area[1] and right <= area[2] and top <= area[3]
        cost = place.dislike + _OUTSIDE * (not inside)
        cost += _ON_WORDS * sum(_meet(box, other) for other in self.words)
        if cost >= _OUTSIDE:
            return cost  # lines no longer matter
        return cost + _ON_LINE * min(10, sum(crosses(line, box) for line in self.lines))


def box_of(place: Place, width: float, height: float) -> Box:
    """The box that words take at a place, with a little air round it."""
    start = place.at[0] - {"left": 0.0, "centre": width / 2, "right": width}[place.align]
    air = 0.12 * height
    foot = place.at[1] - 0.25 * height
    return start - air, foot - air, start + width + air, foot + height + air


def _holds(box: Box, point: Point) -> bool:
    """Whether a point lies in a box: a line may start on the dot that it ties words to."""
    return box[0] <= point[0] <= box[2] and box[1] <= point[1] <= box[3]


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def crosses(line: tuple[Point, Point], box: Box) -> bool:
    """Whether a straight piece touches a box; most lie clearly beside it."""
    (x0, y0), (x1, y1) = line
    if max(x0, x1) < box[0] or min(x0, x1) > box[2] or max(y0, y1) < box[1] or min(y0, y1) > box[3]:
        return False
    return clip(line, box) is not None


def clip(line: tuple[Point, Point], box: Box) -> tuple[Point, Point] | None:
    """The part of a straight piece that lies in a box, or None (Liang and Barsky, 1984)."""
    (x0, y0), (x1, y1) = line
    dx, dy = x1 - x0, y1 - y0
    enter, leave = 0.0, 1.0
    for step, room in ((-dx, x0 - box[0]), (dx, box[2] - x0), (-dy, y0 - box[1]), (dy, box[3] - y0)):
        if step == 0:
            if room < 0:
                return None
            continue
        share = room / step
        if step < 0:
            enter = max(enter, share)
        else:
            leave = min(leave, share)
    if enter > leave:
        return None
    return (x0 + enter * dx, y0 + enter * dy), (x0 + leave * dx, y0 + leave * dy)


def clipped_runs(points: Sequence[Point], box: Box) -> list[list[Point]]:
    """A line cut at a box's sides: the runs that lie within."""
    runs: list[list[Point]] = []
    for line in pairwise(points):
        part = clip(line, box)
        if part is None:
            continue
        if runs and math.dist(runs[-1][-1], part[0]) < 1e-9:
            runs[-1].append(part[1])
        else:
            runs.append(list(part))
    return runs
