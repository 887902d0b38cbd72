"""What each supposition is worth: the likelihood of the readings, averaged over how strong the fault may be.

The log likelihood is reckoned on a grid over the strengths, each tenfold step as likely as the next, and is
a smooth curve or face through these points, nowhere higher than its neighbours. Where all that counts lies
in a few steps of the grid, a finer grid is laid over those, until the steps beside the top are small.
Suppositions that are hopeless, even at the top of a parabola through their best points, are not looked at
again. A pair of which one shows clearly and the other hardly has a grid of its own.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, product

import numpy as np

from panewright.bench.fault.box import (
    Box,
    closer_axes,
    fine,
    first_axes,
    is_mirrored,
    narrow,
    one_side,
    parted,
    promise,
    spread,
    steps,
    with_strengths,
    wrongs,
)
from panewright.bench.fault.foretold import Curves, Foretold, Wrong
from panewright.bench.fault.kinds import KINDS, Group, Key, Kind, sites, sites_of_two
from panewright.bench.fault.likelihood import likelihood
from panewright.bench.fault.readings import Points
from panewright.cell.root import Array
from panewright.circuit.network import Network

_HOPELESS = 30.0  # below the best, on the first grid
_ROUNDS = 6
_PAIRS = 12  # looked at more closely, whatever they promise
_NEAR = 10.0  # in log, below the best single fault: what counts beside another
_SHARP, _ABOUT = 8.0, 6  # a part of the range, and points across twice the band


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
    grids = [(each.wrong, first_axes(each.wrong)) for each in supposed]
    return Prepared(foretold, supposed, foretold.curves(wrongs(grids)))


@dataclass(frozen=True, slots=True)
class Looked:
    """The likelihood of every supposition along its strengths, before any share is asked."""

    supposed: tuple[Supposition, ...]
    boxes: tuple[tuple[Box, ...], ...]  #: of each one or more grids, of which the weightiest counts


def weigh(ready: Prepared, points: Points) -> tuple[Weighed, ...]:
    """Every supposition weighed by the readings, the likeliest first."""
    return weighed(look(ready, points), ready.supposed)


def look(ready: Prepared, points: Points) -> Looked:
    """How likely the readings are, on grids that become finer where it matters."""
    supposed = ready.supposed

    firsts = [(each.wrong, first_axes(each.wrong)) for each in supposed]
    boxes = parted(firsts, likelihood(ready.curves, points).log)
    mirrored = {k for k, box in enumerate(boxes) if is_mirrored(box)}
    boxes = [one_side(box) if k in mirrored else box for k, box in enumerate(boxes)]

    def seen(numbers: Sequence[int], axes: Sequence[tuple[Array, ...]]) -> list[Box]:
        grids = [(supposed[k].wrong, each) for k, each in zip(numbers, axes, strict=True)]
        found = parted(grids, likelihood(ready.foretold.curves(wrongs(grids)), points).log)
        return [one_side(box) if k in mirrored else box for k, box in zip(numbers, found, strict=True)]

    left = [k for k, box in enumerate(boxes) if box.axes]
    for _ in range(_ROUNDS):
        left = [k for k in _hopeful(boxes, left) if any(narrow(boxes[k]))]
        if not left:
            break
        closer = seen(left, [closer_axes(boxes[k]) for k in left])
        for k, box in zip(left, closer, strict=True):
            boxes[k] = box
    beside = beside_one(supposed, boxes)
    more: dict[int, list[Box]] = {}
    if beside:
        numbers = [k for k, _ in beside]
        for k, box in zip(numbers, seen(numbers, [axes for _, axes in beside]), strict=True):
            more.setdefault(k, []).append(box)
    return Looked(supposed, tuple((box, *more.get(k, ())) for k, box in enumerate(boxes)))


def _hopeful(boxes: Sequence[Box], left: Sequence[int]) -> list[int]:
    """What may still be among the likeliest, and of pairs some in any case.

    A pair that shows clearly is a needle between the points of its first grid, which then promise nothing.
    """
    hope = max(float(box.log.max()) for box in boxes) - _HOPELESS
    pairs = sorted((k for k in left if len(boxes[k].axes) > 1), key=lambda k: -promise(boxes[k]))
    return [k for k in left if promise(boxes[k]) > hope or k in pairs[:_PAIRS]]


def weighed(looked: Looked, supposed: Sequence[Supposition]) -> tuple[Weighed, ...]:
    """With these shares; `supposed` are the same things, of the same or of narrower ranges."""
    told = [
        max((_weighed(each, box) for box in boxes), key=lambda one: one.log)
        for each, boxes in zip(supposed, looked.boxes, strict=True)
    ]
    return tuple(sorted(told, key=lambda each: -each.log))


def beside_one(supposed: Sequence[Supposition], boxes: Sequence[Box]) -> list[tuple[int, tuple[Array, ...]]]:
    """Grids of pairs, laid close about a fault that shows by itself and wide over one beside it.

    A grid over both strengths is too wide for a fault that shows clearly: its points pass the peak by.
    """
    sharp = _sharp(supposed, boxes)
    found: list[tuple[int, tuple[Array, ...]]] = []
    for k, each in enumerate(supposed):
        kinds = each.wrong.kinds
        if len(kinds) < 2 or not all(kind.graded for kind in kinds):
            continue
        for one in (0, 1):
            if kinds[one].key in sharp:
                axes = list(first_axes(each.wrong))
                axes[one] = sharp[kinds[one].key]
                found.append((k, tuple(axes)))
    return found


def _sharp(supposed: Sequence[Supposition], boxes: Sequence[Box]) -> dict[Key, Array]:
    """Logs of strength about each kind that would explain the readings alone, and that closely."""
    alone = [
        (each, _weighed(each, box))
        for each, box in zip(supposed, boxes, strict=True)
        if len(each.wrong.kinds) < 2 and each.share > 0
    ]
    best = max(told.log - np.log(each.share) for each, told in alone)
    found: dict[Key, Array] = {}
    for each, told in sorted(alone, key=lambda one: one[1].log):
        if not told.strengths or told.log - np.log(each.share) < best - _NEAR:
            continue
        _, low, high = np.log(told.strengths[0])
        kind = each.wrong.kinds[0]
        if high - low < np.log(kind.most / kind.least) / _SHARP:
            ends = np.clip((1.5 * low - 0.5 * high, 1.5 * high - 0.5 * low), *np.log((kind.least, kind.most)))
            found[kind.key] = steps(float(ends[0]), float(ends[1]), _ABOUT)
    return found


def _weighed(supposed: Supposition, box: Box) -> Weighed:
    prior = np.log(supposed.share) + box.mirrored * np.log(2) if supposed.share > 0 else -np.inf
    if not box.axes:
        return Weighed(supposed, float(prior + box.log), (), supposed.wrong)
    axes, log = fine(box)
    graded = [kind for kind in supposed.wrong.kinds if kind.graded]
    for along, (axis, kind) in enumerate(zip(axes, graded, strict=True)):
        prior += np.log((axis[1] - axis[0]) / np.log(kind.most / kind.least))
        outside = (axis < np.log(kind.least)) | (axis > np.log(kind.most))
        log[(slice(None),) * along + (outside,)] = -np.inf
    top = log.max()
    if not np.isfinite(top):
        return Weighed(supposed, -np.inf, ((0.0, 0.0, 0.0),) * len(graded), supposed.wrong)
    mass = np.exp(log - top)
    told = tuple(spread(axis, mass, along) for along, axis in enumerate(axes))
    best = with_strengths(supposed.wrong, np.array([likeliest for likeliest, _, _ in told]))
    return Weighed(supposed, float(prior + top + np.log(mass.sum())), told, best)
