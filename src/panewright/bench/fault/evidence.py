"""What each supposition is worth: the likelihood of the readings, averaged over how strong the fault may be.

The log likelihood is reckoned on a grid over the strengths, each tenfold step as likely as the next, and is
a smooth curve or face through these points, nowhere higher than its neighbours. Where all that counts lies
in a few steps of the grid, a finer grid is laid over those, until the steps beside the top are small.
Suppositions that are hopeless, even at the top of a parabola through their best points, are not looked at
again.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations, product

import numpy as np
from scipy.interpolate import PchipInterpolator

from panewright.bench.fault.foretold import Curves, Foretold, Wrong
from panewright.bench.fault.kinds import KINDS, Group, Kind, sites, sites_of_two
from panewright.bench.fault.likelihood import likelihood
from panewright.bench.fault.readings import Points
from panewright.cell.root import Array
from panewright.circuit.network import Network

_FIRST = {0: 1, 1: 24, 2: 8}  # points along each strength, of so many
_CLOSER = {1: 9, 2: 6}
_FINE = 8  # parts of a step in which the spline is summed
_DEEP = 200.0  # below the top nothing counts, however deep it is
_OUTSIDE = 1e-3  # of the mass may lie outside the steps beside the top
_ROUGH = 0.5  # step of the log likelihood beside the top, above which a finer grid is worth it
_HOPELESS = 30.0  # below the best, on the first grid
_ROUNDS = 6


@dataclass(frozen=True, slots=True)
class Supposition:
    """Things that may be wrong together, of any strength, with their share of all panels."""

    group: Group
    wrong: Wrong  #: its strengths are those of a first guess
    share: float  #: before anything was read


@dataclass(frozen=True, slots=True)
class Weighed:
    """A supposition after the readings."""

    supposition: Supposition
    log: float  #: log of share times average likelihood
    strengths: tuple[tuple[float, float, float], ...]  #: of each graded kind: likeliest, and from to (95 %)
    best: Wrong  #: at the likeliest strengths


Grid = tuple[Wrong, tuple[Array, ...]]  #: what is wrong, and logs of its strengths


@dataclass(frozen=True, slots=True)
class Box:
    """A grid over logs of strengths, and the log likelihood on it, one axis for each strength."""

    axes: tuple[Array, ...]
    log: Array

    @property
    def top(self) -> tuple[int, ...]:
        """Where it is likeliest."""
        return tuple(int(k) for k in np.unravel_index(int(np.argmax(self.log)), self.log.shape))


def suppositions(
    network: Network, shares: Mapping[Group, float], kinds: Sequence[Kind] = KINDS
) -> tuple[Supposition, ...]:
    """All that may be wrong with a panel, sharing out what each group has.

    Within a group kinds are alike likely, and places of each sort within a kind. (A row twice as long as
    another would break twice as often; the difference drowns beside that between kinds.)
    """
    found: list[Supposition] = [Supposition("healthy", Wrong(), shares["healthy"])]
    single: dict[Group, list[Kind]] = {}
    for kind in kinds:
        if sites(network, kind):
            single.setdefault(kind.group, []).append(kind)
    for group, alike in single.items():
        for kind in alike:
            places = sites(network, kind)
            for place in places:
                share = shares[group] / len(alike) / len(places)
                found.append(Supposition(group, Wrong((kind,), (place,), (_middle(kind),)), share))
    return (*found, *_pairs(network, single, shares["two faults"]))


def _pairs(network: Network, single: dict[Group, list[Kind]], share: float) -> Iterator[Supposition]:
    """Two faults: each pair of groups alike likely."""
    groups = [group for group in single if group != "open string"]
    twice = [group for group in groups if group not in ("added resistance", "dimmed")]  # two of those are one
    pairs = [*combinations(groups, 2), *((group, group) for group in twice)]
    for one, other in pairs:
        kinds = list(product(single[one], single[other]))
        if one == other:
            kinds = [(a, b) for a, b in kinds if single[one].index(a) <= single[one].index(b)]
        for a, b in kinds:
            places = sites_of_two(network, a, b)
            for at in places:
                wrong = Wrong((a, b), at, (_middle(a), _middle(b)))
                yield Supposition("two faults", wrong, share / len(pairs) / len(kinds) / len(places))


def _middle(kind: Kind) -> float:
    return float(np.sqrt(kind.least * kind.most))


@dataclass(frozen=True, slots=True)
class Prepared:
    """Suppositions about one panel in one light and heat, with the curves of their first grids."""

    foretold: Foretold
    supposed: tuple[Supposition, ...]
    curves: Curves


def prepared(foretold: Foretold, supposed: tuple[Supposition, ...]) -> Prepared:
    """What can be reckoned before anything is read but light and heat."""
    grids = [(each.wrong, _first(each.wrong)) for each in supposed]
    return Prepared(foretold, supposed, foretold.curves(_wrongs(grids)))


@dataclass(frozen=True, slots=True)
class Looked:
    """The likelihood of every supposition along its strengths, before any share is asked."""

    supposed: tuple[Supposition, ...]
    boxes: tuple[Box, ...]


def weigh(ready: Prepared, points: Points) -> tuple[Weighed, ...]:
    """Every supposition weighed by the readings, the likeliest first."""
    return weighed(look(ready, points), ready.supposed)


def look(ready: Prepared, points: Points) -> Looked:
    """How likely the readings are, on grids that become finer where it matters."""
    supposed = ready.supposed
    firsts = [(each.wrong, _first(each.wrong)) for each in supposed]
    boxes = _boxes(firsts, likelihood(ready.curves, points).log)
    left = [k for k, box in enumerate(boxes) if box.axes]
    for _ in range(_ROUNDS):
        hope = max(float(box.log.max()) for box in boxes) - _HOPELESS
        left = [k for k in left if _promise(boxes[k]) > hope and _narrow(boxes[k])]
        if not left:
            break
        closer = [(supposed[k].wrong, _closer(boxes[k])) for k in left]
        found = likelihood(ready.foretold.curves(_wrongs(closer)), points).log
        for k, box in zip(left, _boxes(closer, found), strict=True):
            boxes[k] = box
    return Looked(supposed, tuple(boxes))


def weighed(looked: Looked, supposed: Sequence[Supposition]) -> tuple[Weighed, ...]:
    """With these shares; `supposed` are the same things, of the same or of narrower ranges."""
    told = [_weighed(each, box) for each, box in zip(supposed, looked.boxes, strict=True)]
    return tuple(sorted(told, key=lambda each: -each.log))


def _first(wrong: Wrong) -> tuple[Array, ...]:
    graded = [kind for kind in wrong.kinds if kind.graded]
    count = _FIRST[len(graded)]
    return tuple(_axis(np.log(kind.least), np.log(kind.most), count) for kind in graded)


def _axis(low: float, high: float, count: int) -> Array:
    """Middles of so many even steps."""
    edges = np.linspace(low, high, count + 1)
    return np.asarray((edges[1:] + edges[:-1]) / 2)


def _wrongs(grids: Sequence[Grid]) -> list[Wrong]:
    """Every point of every grid."""
    return [_at(wrong, np.array(row)) for wrong, axes in grids for row in product(*map(np.exp, axes))]


def _boxes(grids: Sequence[Grid], log: Array) -> list[Box]:
    """The likelihoods parted by grid."""
    sizes = [int(np.prod([axis.size for axis in axes])) for _, axes in grids]
    parts = np.split(log, np.cumsum(sizes)[:-1])
    return [
        Box(axes, part.reshape([axis.size for axis in axes]))
        for (_, axes), part in zip(grids, parts, strict=True)
    ]


def _at(wrong: Wrong, strengths: Array) -> Wrong:
    """The same things wrong, as strong as that."""
    given = iter(strengths.tolist())
    return replace(wrong, strengths=tuple(next(given) if kind.graded else 0.0 for kind in wrong.kinds))


def _promise(box: Box) -> float:
    """How likely it may be between the points of its grid: twice what a parabola through the top promises."""
    gain = 0.0
    for along, k in enumerate(box.top):
        count = box.log.shape[along]
        at = min(max(k, 1), count - 2)
        low, middle, high = (
            float(box.log[(*box.top[:along], m, *box.top[along + 1 :])]) for m in (at - 1, at, at + 1)
        )
        bend = 2 * middle - high - low
        gain += (high - low) ** 2 / (8 * bend) if bend > 0 else 0.0
    return float(box.log[box.top]) + 2 * gain


def _narrow(box: Box) -> bool:
    """Whether all that counts lies in the steps beside the top, which are steep."""
    steps = []
    for along, k in enumerate(box.top):
        beside = [
            (*box.top[:along], m, *box.top[along + 1 :])
            for m in (k - 1, k + 1)
            if 0 <= m < box.log.shape[along]
        ]
        steps += [float(box.log[box.top] - box.log[at]) for at in beside]
    if max(steps, default=0.0) < _ROUGH:
        return False
    mass = np.exp(box.log - box.log[box.top])
    near = tuple(slice(max(k - 1, 0), k + 2) for k in box.top)
    return bool(mass[near].sum() >= (1 - _OUTSIDE) * mass.sum())


def _closer(box: Box) -> tuple[Array, ...]:
    """The steps beside the top in more points."""
    axes = []
    for axis, k in zip(box.axes, box.top, strict=True):
        step = axis[1] - axis[0]
        low = max(axis[k] - 1.5 * step, axis[0] - step / 2)
        high = min(axis[k] + 1.5 * step, axis[-1] + step / 2)
        axes.append(_axis(low, high, _CLOSER[len(box.axes)]))
    return tuple(axes)


def _fine(box: Box) -> tuple[tuple[Array, ...], Array]:
    """The log likelihood through the grid's points, at the middles of many small steps.

    Beyond the outermost points it stays what it is there: a cubic followed on would run away.
    """
    axes = tuple(
        _axis(axis[0] - (axis[1] - axis[0]) / 2, axis[-1] + (axis[1] - axis[0]) / 2, axis.size * _FINE)
        for axis in box.axes
    )
    top = box.log.max()
    log = np.maximum(box.log - top, -_DEEP)
    for along, (axis, fine) in enumerate(zip(box.axes, axes, strict=True)):
        log = PchipInterpolator(axis, log, axis=along)(np.clip(fine, axis[0], axis[-1]))
    return axes, np.asarray(log + top)


def _weighed(supposed: Supposition, box: Box) -> Weighed:
    prior = np.log(supposed.share) if supposed.share > 0 else -np.inf
    if not box.axes:
        return Weighed(supposed, float(prior + box.log), (), supposed.wrong)
    axes, log = _fine(box)
    graded = [kind for kind in supposed.wrong.kinds if kind.graded]
    for along, (axis, kind) in enumerate(zip(axes, graded, strict=True)):
        prior += np.log((axis[1] - axis[0]) / np.log(kind.most / kind.least))
        outside = (axis < np.log(kind.least)) | (axis > np.log(kind.most))
        log[(slice(None),) * along + (outside,)] = -np.inf
    top = log.max()
    if not np.isfinite(top):
        return Weighed(supposed, -np.inf, ((0.0, 0.0, 0.0),) * len(graded), supposed.wrong)
    mass = np.exp(log - top)
    told = tuple(_spread(axis, mass, along) for along, axis in enumerate(axes))
    best = _at(supposed.wrong, np.array([likeliest for likeliest, _, _ in told]))
    return Weighed(supposed, float(prior + top + np.log(mass.sum())), told, best)


def _spread(axis: Array, mass: Array, along: int) -> tuple[float, float, float]:
    """The likeliest strength and the bounds of 95 parts in 100."""
    share = mass.sum(axis=tuple(k for k in range(mass.ndim) if k != along))
    upto = np.concatenate([[0.0], np.cumsum(share) / share.sum()])
    step = axis[1] - axis[0]
    low, high = np.interp((0.025, 0.975), upto, np.append(axis - step / 2, axis[-1] + step / 2))
    return float(np.exp(axis[int(np.argmax(share))])), float(np.exp(low)), float(np.exp(high))
