"""A grid over the strengths of what is supposed to be wrong, and the log likelihood on it.

The log likelihood is a smooth curve or face through the grid's points, nowhere higher than its neighbours.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np
from scipy.interpolate import PchipInterpolator

from panewright.bench.fault.foretold import Wrong
from panewright.cell.root import Array

_FIRST = {0: 1, 1: 24, 2: 8}  # points along each strength, of so many
_CLOSER = {1: 9, 2: 6}
_FINE = 8  # parts of a step in which the spline is summed
_DEEP = 200.0  # below the top nothing counts, however deep it is
_OUTSIDE = 1e-3  # of the mass may lie outside the steps beside the top
_NOTHING = -1e9  # log likelihood of what is not looked at
_ROUGH = 0.5  # step of the log likelihood beside the top, above which a finer grid is worth it

Grid = tuple[Wrong, tuple[Array, ...]]  #: what is wrong, and logs of its strengths


@dataclass(frozen=True, slots=True)
class Box:
    """A grid over logs of strengths, and the log likelihood on it, one axis for each strength."""

    axes: tuple[Array, ...]
    log: Array
    mirrored: bool = False  #: one side of two strengths that may be exchanged; the other counts as much

    @property
    def top(self) -> tuple[int, ...]:
        """Where it is likeliest."""
        return tuple(int(k) for k in np.unravel_index(int(np.argmax(self.log)), self.log.shape))


def first_axes(wrong: Wrong) -> tuple[Array, ...]:
    """Along each strength, the whole range that its kind may have."""
    graded = [kind for kind in wrong.kinds if kind.graded]
    count = _FIRST[len(graded)]
    return tuple(steps(np.log(kind.least), np.log(kind.most), count) for kind in graded)


def steps(low: float, high: float, count: int) -> Array:
    """Middles of so many even steps."""
    edges = np.linspace(low, high, count + 1)
    return np.asarray((edges[1:] + edges[:-1]) / 2)


def wrongs(grids: Sequence[Grid]) -> list[Wrong]:
    """Every point of every grid."""
    return [
        with_strengths(wrong, np.array(row)) for wrong, axes in grids for row in product(*map(np.exp, axes))
    ]


def parted(grids: Sequence[Grid], log: Array) -> list[Box]:
    """The likelihoods parted by grid."""
    sizes = [int(np.prod([axis.size for axis in axes])) for _, axes in grids]
    parts = np.split(log, np.cumsum(sizes)[:-1])
    return [
        Box(axes, part.reshape([axis.size for axis in axes]))
        for (_, axes), part in zip(grids, parts, strict=True)
    ]


def is_mirrored(box: Box) -> bool:
    """Whether two strengths may be exchanged: two faults of one kind in places that are alike."""
    if len(box.axes) != 2 or not np.array_equal(*box.axes):
        return False
    return bool(np.allclose(box.log, box.log.T, rtol=1e-6))


def one_side(box: Box) -> Box:
    """Where the first is the stronger. Two needles, one the mirror of the other, would never seem narrow."""
    first, second = np.meshgrid(*box.axes, indexing="ij")
    part = np.where(first > second, 0.0, np.where(first < second, _NOTHING, -np.log(2)))
    return replace(box, log=box.log + part, mirrored=True)


def with_strengths(wrong: Wrong, strengths: Array) -> Wrong:
    """The same things wrong, as strong as that."""
    given = iter(strengths.tolist())
    return replace(wrong, strengths=tuple(next(given) if kind.graded else 0.0 for kind in wrong.kinds))


def promise(box: Box) -> float:
    """How likely it may be between the points of its grid: twice what a parabola through the top promises.

    A needle stands between points that are far below it on both sides, where a parabola tells nothing. But
    how far the readings lie off, sqrt(-2 ln L), changes by no more within a step than it does over the steps
    beside the top, or hardly. Of a single strength that counts too; of two it would keep nearly all pairs.
    """
    return max(_by_parabola(box), _by_distance(box) if len(box.axes) == 1 else -np.inf)


def _by_distance(box: Box) -> float:
    """By how far off the readings are, and how that changes along the only strength."""
    k = box.top[0]
    off = np.sqrt(2 * np.maximum(-box.log[max(k - 1, 0) : k + 2], 0.0))
    least = max(float(off.min() - np.ptp(off)), 0.0)
    return max(float(box.log[k]), -(least**2) / 2)


def _by_parabola(box: Box) -> float:
    gain = 0.0
    for along, k in enumerate(box.top):
        count = box.log.shape[along]
        at = min(max(k, 1), count - 2)
        low, middle, high = (
            float(box.log[(*box.top[:along], m, *box.top[along + 1 :])]) for m in (at - 1, at, at + 1)
        )
        bend = 2 * middle - high - low
        gain += (high - low) ** 2 / (8 * bend) if 0 < bend < -_NOTHING / 2 else 0.0
    return float(box.log[box.top]) + 2 * gain


def narrow(box: Box) -> tuple[bool, ...]:
    """Of each axis, whether all that counts lies in the steps beside the top, and these are steep.

    Beside a fault that shows clearly another may have any strength: narrow along one axis, wide along the
    other.
    """
    mass, found = np.exp(box.log - box.log[box.top]), []
    for along, (k, axis) in enumerate(zip(box.top, box.axes, strict=True)):
        near = range(max(k - 1, 0), min(k + 2, axis.size))
        beside = [float(box.log[(*box.top[:along], m, *box.top[along + 1 :])]) for m in near]
        steep = float(box.log[box.top]) - min(beside) >= _ROUGH
        share = mass.sum(axis=tuple(other for other in range(mass.ndim) if other != along))
        found.append(steep and bool(share[near.start : near.stop].sum() >= (1 - _OUTSIDE) * share.sum()))
    return tuple(found)


def closer_axes(box: Box) -> tuple[Array, ...]:
    """The steps beside the top in more points, along what is narrow."""
    axes = []
    for axis, k, is_narrow in zip(box.axes, box.top, narrow(box), strict=True):
        step = axis[1] - axis[0]
        low = max(axis[k] - 1.5 * step, axis[0] - step / 2)
        high = min(axis[k] + 1.5 * step, axis[-1] + step / 2)
        axes.append(steps(low, high, _CLOSER[len(box.axes)]) if is_narrow else axis)
    return tuple(axes)


def fine(box: Box) -> tuple[tuple[Array, ...], Array]:
    """The log likelihood through the grid's points, at the middles of many small steps.

    Beyond the outermost points it stays what it is there: a cubic followed on would run away.
    """
    axes = tuple(
        steps(axis[0] - (axis[1] - axis[0]) / 2, axis[-1] + (axis[1] - axis[0]) / 2, axis.size * _FINE)
        for axis in box.axes
    )
    top = box.log.max()
    log = np.maximum(box.log - top, -_DEEP)
    for along, (axis, fine) in enumerate(zip(box.axes, axes, strict=True)):
        log = PchipInterpolator(axis, log, axis=along)(np.clip(fine, axis[0], axis[-1]))
    return axes, np.asarray(log + top)


def spread(axis: Array, mass: Array, along: int) -> tuple[float, float, float]:
    """The likeliest strength and the bounds of 95 parts in 100."""
    share = mass.sum(axis=tuple(k for k in range(mass.ndim) if k != along))
    upto = np.concatenate([[0.0], np.cumsum(share) / share.sum()])
    step = axis[1] - axis[0]
    low, high = np.interp((0.025, 0.975), upto, np.append(axis - step / 2, axis[-1] + step / 2))
    return float(np.exp(axis[int(np.argmax(share))])), float(np.exp(low)), float(np.exp(high))
