"""The highest point of a function that may have several humps and steps.

A first even row of points finds the highest hump that is not narrower than its spacing, a second one the best
part of that. From there single points close in [B]: each at the top of the parabola through the best three,
or at the golden section of the longer side where the parabola leads nowhere. Ends of the range count. Nothing
is asked of the function but a value.

[B] R. Brent, Algorithms for Minimization without Derivatives, 1973, chapter 5 (recalled).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from panewright.cell.root import Array

_FIRST, _AGAIN = 49, 17  #: points of the first row and of the second
_GOLDEN = 0.381966
_MOST = 100  #: points that close in: golden sections alone need half of them

Height = Callable[[float], float]
Point = tuple[float, float]  #: place, height


def highest(height: Callable[[Array], Array], low: float, high: float, fine: float = 1e-8) -> float:
    """Where a function is highest between two ends, to a share `fine` of the range.

    >>> round(highest(lambda x: x * np.exp(-x), 0.0, 9.0), 5)
    1.0
    """
    row, values = _row(height, low, high, _FIRST)
    best = int(np.argmax(values))
    row, values = _row(height, row[max(best - 1, 0)], row[min(best + 1, _FIRST - 1)], _AGAIN)
    best, near = int(np.argmax(values)), fine * (high - low)
    if not near > 0:
        return row[best]

    def alone(place: float) -> float:
        return float(_heights(height, np.array([place]))[0])

    around = [(row[at], float(values[at])) for at in (best - 1, best, best + 1) if 0 <= at < _AGAIN]
    if len(around) == 3:
        return _closed_in(alone, around, near)
    end, other = (around[0], around[1]) if best == 0 else (around[1], around[0])
    inside = end[0] + (near if best == 0 else -near)
    if not (found := alone(inside)) > end[1]:
        return end[0]
    return _closed_in(alone, sorted([end, (inside, found), other]), near)


def _row(
    height: Callable[[Array], Array], left: float, right: float, points: int
) -> tuple[list[float], Array]:
    row = np.linspace(left, right, points)
    return row.tolist(), _heights(height, row)


def _heights(height: Callable[[Array], Array], row: Array) -> Array:
    """Values; where there is none, less than any other."""
    with np.errstate(all="ignore"):
        values = height(row)
    return np.where(np.isfinite(values), values, -np.inf)


@dataclass(slots=True)
class _Bracket:
    """Ends between which the top lies, the three best points so far, the last step and the one before."""

    left: float
    right: float
    best: Point
    second: Point
    third: Point
    step: float
    before: float

    def put(self, tried: Point) -> None:
        """A further point, which makes the bracket smaller."""
        better = tried[1] >= self.best[1]
        inner, outer = (tried[0], self.best[0]) if better else (self.best[0], tried[0])
        if outer < inner:
            self.left = outer
        else:
            self.right = outer
        if better:
            self.best, self.second, self.third = tried, self.best, self.second
        elif tried[1] >= self.second[1]:
            self.second, self.third = tried, self.second
        elif tried[1] >= self.third[1]:
            self.third = tried


def _closed_in(height: Height, around: list[Point], near: float) -> float:
    """The top between the outer two of three points, of which the middle one is the highest."""
    (left, _), best, (right, _) = around
    third, second = sorted((around[0], around[2]), key=lambda point: point[1])
    bracket = _Bracket(left, right, best, second, third, right - left, right - left)
    for _ in range(_MOST):
        place = bracket.best[0]
        if max(bracket.right - place, place - bracket.left) <= near:
            break
        step = _step(bracket, near / 2)
        if abs(step) < near / 2:
            step = near / 2 if step >= 0 else -near / 2
        bracket.before, bracket.step = bracket.step, step
        bracket.put((place + step, height(place + step)))
    return bracket.best[0]


def _step(bracket: _Bracket, least: float) -> float:
    """From the best point to the next that is looked at."""
    place, middle = bracket.best[0], (bracket.left + bracket.right) / 2
    step = _to_the_top(bracket.best, bracket.second, bracket.third)
    inside = bracket.left < place + step < bracket.right
    if inside and abs(step) < abs(bracket.before) / 2:
        close = min(place + step - bracket.left, bracket.right - place - step) < 2 * least
        return (least if middle >= place else -least) if close else step
    longer = bracket.right - place if place < middle else bracket.left - place
    bracket.step = longer
    return _GOLDEN * longer


def _to_the_top(best: Point, second: Point, third: Point) -> float:
    """From the first of three points to the top of the parabola through them; infinite where it has none."""
    one, other = second[0] - best[0], third[0] - best[0]
    fall, drop = one * (best[1] - third[1]), other * (best[1] - second[1])
    below = 2 * (one * (best[1] - third[1]) - other * (best[1] - second[1]))
    ahead = one * fall - other * drop
    return ahead / below if np.isfinite(ahead) and below != 0 else float("inf")
