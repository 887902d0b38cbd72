"""Few soldered strings shared out over panels in every way, loose cells between them in falling order of Imp.

Exchanges seldom lead from one way to share them out to another, for a long one has to go for several short
ones and loose cells at once. What a way gives is read from vectors: of loose cells one after the other a sum
is the difference of two sums from the first on. Panels of one string.
"""

from __future__ import annotations

import numpy as np

from panewright.cell.root import Array
from panewright.lots.matching.deal import Rules
from panewright.lots.matching.pieces import Whole
from panewright.lots.matching.plans.sorting import packed
from panewright.lots.matching.vectors import Vectors, stand

_WAYS = 20_000  # more are not looked at
_AT_ONCE = 1000  # ways
_TRIED, _BEST = 200, 6  # of the best ways so many are seated, till so many go in


def portioned(rules: Rules, vectors: Vectors, by_imp: Whole, own_w: Array, panels: int) -> list[Whole]:
    """The best deals of so many panels by ways to share soldered strings out, by their vectors.

    `by_imp`: all pieces in falling order of Imp; `own_w`: watts of every piece by itself.
    """
    open_to = rules.largest >= min(rules.seats.driven)
    joined, loose = by_imp[(rules.size > 1)[by_imp]], by_imp[((rules.size == 1) & open_to)[by_imp]]
    spare = int(rules.size[joined].sum()) + loose.size - panels * rules.seats.count
    bins = panels + int(joined.size > 0 and spare >= rules.size[joined].min())  # the last: left over
    if len(rules.seats.strings) > 1 or not joined.size or bins**joined.size > _WAYS:
        return []
    ways = np.indices((bins,) * joined.size).reshape(joined.size, -1).T
    lack = rules.seats.count - _used(ways, rules.size[joined], panels)
    fit = (lack >= 0).all(axis=1) & (lack.sum(axis=1) <= loose.size)
    ways, lack = ways[fit], lack[fit]
    watts = np.empty(len(ways))
    for total in np.unique(lack.sum(axis=1)).tolist():
        mine, taken = np.flatnonzero(lack.sum(axis=1) == total), _strongest(loose, own_w, total)
        for at in np.array_split(mine, len(mine) // _AT_ONCE + 1):
            watts[at] = _watts(vectors, (joined, taken), ways[at], lack[at])
    found: list[Whole] = []
    for k in np.argsort(-watts, kind="stable")[:_TRIED].tolist():
        rows = _rows((joined, _strongest(loose, own_w, int(lack[k].sum()))), ways[k], lack[k])
        if len(found) < _BEST and all(rules.allowed(0, np.array(row)) for row in rows):
            found.append(packed([[row] for row in rows], rules))
    return found


def _used(ways: Whole, size: Whole, panels: int) -> Whole:
    """Cells of soldered strings in every panel, way by way."""
    return np.stack([((ways == p) * size).sum(axis=1) for p in range(panels)], axis=1)


def _strongest(loose: Whole, own_w: Array, count: int) -> Whole:
    """So many of the strongest loose cells, in their order."""
    stays = np.zeros(loose.size, dtype=bool)
    stays[np.argsort(-own_w[loose], kind="stable")[:count]] = True
    return loose[stays]


def _watts(vectors: Vectors, pieces: tuple[Whole, Whole], ways: Whole, lack: Whole) -> Array:
    """Watts of all panels together, way by way. [W]"""
    joined, loose = pieces
    first = np.concatenate([np.zeros((1, vectors.current_a.size)), np.cumsum(vectors.piece_v[loose], axis=0)])
    ends = np.cumsum(lack, axis=1)
    total = np.zeros(len(ways))
    for p in range(lack.shape[1]):
        volt = first[ends[:, p]] - first[ends[:, p] - lack[:, p]]
        volt += (ways == p).astype(float) @ vectors.piece_v[joined]
        total += stand(vectors, volt[:, None]).power_w
    return total


def _rows(pieces: tuple[Whole, Whole], way: Whole, lack: Whole) -> list[list[int]]:
    """Pieces of every panel."""
    joined, loose = pieces
    ends = np.cumsum(lack)
    return [
        [*joined[way == p].tolist(), *loose[ends[p] - lack[p] : ends[p]].tolist()] for p in range(lack.size)
    ]
