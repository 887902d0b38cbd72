"""From several starts down to the least sum of squares, with what lies on a bound put exactly there.

A series resistance or a shunt conductance below zero makes no sense, so a fit may end at zero. The search
only creeps up to such a bound; so the parameter is then put at zero, the others are fitted again, and the
lower of the two is kept.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.optimize import least_squares

from panewright.cell.root import Array
from panewright.curve.equation import LIGHT, SERIES, SHUNT, Frame, Optimum, bounds, model, slopes

Vector = Callable[[Array], Array]

_AT_ZERO = 0.02  # of its own scale: near enough to zero to try zero itself
_AS_LOW = 1e-7  # costs that differ by less are the same optimum


@dataclass(frozen=True, slots=True)
class Task:
    """What is made least: which residuals, with which weights, over which parameters."""

    frame: Frame
    weight: Array
    optimum: Optimum
    fixed: tuple[int, ...] = ()  #: parameters kept as the start has them


@dataclass(frozen=True, slots=True)
class Bottom:
    """The end of one descent."""

    theta: Array
    cost: float  #: weighted sum of squares
    fixed: tuple[int, ...]


def lowest(task: Task, starts: Sequence[Array]) -> tuple[Bottom, tuple[Bottom, ...]]:
    """The lowest bottom from some starts, and the bottom of each start."""
    raw = [_search(task, start, task.fixed) for start in starts]
    settled: list[tuple[Bottom, Bottom]] = []
    found = []
    for bottom in raw:
        end = next((end for first, end in settled if _neighbours(first, bottom)), None)
        if end is None:
            end = _settled(task, bottom)
            settled.append((bottom, end))
        found.append(end)
    return min(found, key=lambda bottom: bottom.cost), tuple(found)


def same_cost(best: Bottom, others: Sequence[Bottom], floor: float) -> tuple[Bottom, ...]:
    """Those that came as low as the best; `floor` is a cost that is nothing but rounding."""
    return tuple(other for other in others if other.cost <= best.cost * (1 + _AS_LOW) + floor)


def descend(task: Task, start: Array) -> Bottom:
    """The bottom below a start; zeros tried where a parameter came near to zero."""
    return _settled(task, _search(task, start, task.fixed))


def _neighbours(one: Bottom, other: Bottom) -> bool:
    """Whether two descents came to rest in the same hollow."""
    return abs(one.cost - other.cost) <= 1e-4 * one.cost and np.allclose(one.theta, other.theta, 1e-3, 1e-3)


def _settled(task: Task, best: Bottom) -> Bottom:
    """A bottom to its last digit, with zeros where zeros are as good."""
    for places in ((SERIES,), (SHUNT,), (SERIES, SHUNT), (LIGHT,)):
        free = [place for place in places if place not in task.fixed]
        if free and all(best.theta[place] < _AT_ZERO for place in free):
            pinned = best.theta.copy()
            pinned[free] = 0.0
            trial = _search(task, pinned, (*task.fixed, *free))
            if trial.cost <= best.cost * (1 + 1e-12):
                best = trial
    return _polished(task, best)


def _search(task: Task, start: Array, fixed: tuple[int, ...]) -> Bottom:
    free = _free(start, fixed)
    residuals, jacobian = _residuals(task, start, free)
    least, most = bounds(start.size)
    found = least_squares(
        residuals,
        np.clip(start, least + 1e-9, most - 1e-9)[free],
        jac=jacobian,
        bounds=(least[free], most[free]),
        x_scale="jac",
        ftol=1e-13,
        xtol=1e-11,
        gtol=1e-15,
        max_nfev=100,
    )
    theta = start.copy()
    theta[free] = found.x
    return Bottom(theta, 2 * float(found.cost), fixed)


def _free(theta: Array, fixed: tuple[int, ...]) -> list[int]:
    return [place for place in range(theta.size) if place not in fixed]


def _residuals(task: Task, theta: Array, free: list[int]) -> tuple[Vector, Vector]:
    """Weighted residuals, and their slopes, of the free parameters alone."""
    root = np.sqrt(task.weight)

    def whole(part: Array) -> Array:
        full = theta.copy()
        full[free] = part
        return full

    def residuals(part: Array) -> Array:
        return np.asarray((model(task.frame, whole(part), task.optimum) - task.frame.amperes) * root)

    def jacobian(part: Array) -> Array:
        return np.asarray(slopes(task.frame, whole(part), task.optimum)[:, free] * root[:, None])

    return residuals, jacobian


def _polished(task: Task, bottom: Bottom) -> Bottom:
    """A few plain Gauss-Newton steps: the sum of squares is flat to its last digit long before they are."""
    free = _free(bottom.theta, bottom.fixed)
    residuals, jacobian = _residuals(task, bottom.theta, free)
    least, most = bounds(bottom.theta.size)
    x, last, best = bottom.theta[free], np.inf, bottom.cost
    for _ in range(6):
        step = np.linalg.lstsq(jacobian(x), -residuals(x), rcond=1e-12)[0]
        size, new = float(np.max(np.abs(step))), x + step
        if not size < min(last, 1e-3) or np.any(new <= least[free]) or np.any(new >= most[free]):
            break
        cost = float(np.sum(residuals(new) ** 2))
        if cost > best * (1 + 1e-9):
            break
        x, last, best = new, size, min(best, cost)
    theta = bottom.theta.copy()
    theta[free] = x
    return Bottom(theta, float(np.sum(residuals(x) ** 2)), bottom.fixed)
