"""How many cells to buy so that enough good ones are left, with a stated confidence.

Each step loses cells independently with a chance of its own; those chances multiply. With all chances known
the number of good cells is binomial. A chance that was only counted is one draw for the whole order, so the
binomial tail is averaged over what it may be (beta-binomial), over every mixture of them. The number bought
is the smallest whose tail reaches the confidence, found by halving, for the tail rises with the number.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from panewright.cell.root import Array
from panewright.lots.buying.rate import Rate, chance_at_least

SURE = 0.95
_MOST = 10**8
_NODES_AT_ONCE = 30_000
_ALONE = 800  # nodes of the only step that was counted: thousands of cells turn a chance within a small angle


@dataclass(frozen=True, slots=True)
class Needed:
    """What to buy."""

    cells: int  #: the fewest that will do
    packs: int
    bought: int  #: in whole packs
    sure: float  #: chance that what is bought is enough
    left: float  #: good cells expected of what is bought


def needed(good: int, steps: Sequence[Rate], sure: float = SURE, pack: int = 1) -> Needed:
    """The fewest cells, and packs, of which with the chance `sure` at least `good` are left.

    >>> needed(36, [Rate.known("bench", 0.03)]).bought
    39
    >>> told = needed(36, [Rate.counted("bench", 3, 100)], pack=10)
    >>> told.cells, told.packs, round(told.sure, 4)
    (40, 4, 0.9698)
    """
    if good < 0 or pack < 1 or not 0 < sure < 1:
        raise ValueError(
            f"good cells 0 or more, packs of 1 or more, sure within 0..1: {good}, {pack}, {sure}"
        )
    kept, weight = mixture(steps)
    if good and not float(kept.max()) > 0:
        raise ValueError("a step loses every cell: no number is enough")
    cells = _fewest(good, sure, kept, weight)
    packs = -(-cells // pack)
    bought = packs * pack
    return Needed(cells, packs, bought, _sure(bought, good, kept, weight), bought * float(kept @ weight))


def chance_enough(bought: int, good: int, steps: Sequence[Rate]) -> float:
    """Chance that of so many bought at least so many good ones are left.

    >>> round(chance_enough(10, 9, [Rate.known("bench", 0.1)]), 4)
    0.7361
    """
    return _sure(bought, good, *mixture(steps))


def mixture(steps: Sequence[Rate]) -> tuple[Array, Array]:
    """Chances that a cell passes all steps, and how likely each of those chances is."""
    kept, weight = np.ones(1), np.ones(1)
    alone = sum(step.tried is not None for step in steps) == 1
    for step in steps:
        passed, likely = step.kept(_ALONE) if alone else step.kept()
        if kept.size * passed.size > _NODES_AT_ONCE:
            kept, weight = _thinned(kept, weight)
        kept = (kept[:, None] * passed).ravel()
        weight = (weight[:, None] * likely).ravel()
    return kept, weight


def _thinned(kept: Array, weight: Array) -> tuple[Array, Array]:
    """Fewer chances that stand for many: neighbours put together, weight and mean kept."""
    order = np.argsort(kept)
    kept, weight = kept[order], weight[order]
    first = np.arange(0, kept.size, -(-kept.size // 2000))
    total = np.add.reduceat(weight, first)
    middle = np.add.reduceat(weight * kept, first) / np.maximum(total, 1e-300)
    return middle, total


def _sure(bought: int, good: int, kept: Array, weight: Array) -> float:
    return float(chance_at_least(kept, bought, good) @ weight)


def _fewest(good: int, sure: float, kept: Array, weight: Array) -> int:
    """The smallest number whose tail reaches the confidence."""
    if good == 0:
        return 0
    low, high = good - 1, good
    while _sure(high, good, kept, weight) < sure:
        low, high = high, 2 * high
        if high > _MOST:
            raise ValueError(f"not even {_MOST} cells are enough with a chance of {sure:g}")
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if _sure(middle, good, kept, weight) >= sure else (middle, high)
    return high
