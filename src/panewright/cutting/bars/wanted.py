"""A cutting task as numbers: sizes, kinds of bar, and the plan that answers it."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from panewright.cutting.bars.column import Column, Costed, Pattern

if TYPE_CHECKING:
    from panewright.cutting.bars.master import Master

TINY = 1e-6

Bars = tuple[tuple[Column, int], ...]
"""Bars by pattern, with their number."""


@dataclass(frozen=True, slots=True)
class Stock:
    """A kind of bar to the programme: lengths in whole units, cost as a share of the dearest."""

    room: int
    cost: float
    have: int | None = None
    spare: int = 0  #: what is left of a bar of which nothing is cut
    keep: int = 0  #: what is left is worth something by what it is longer than this
    rate: float = 0.0  #: that worth, for a unit of length


@dataclass(frozen=True, slots=True)
class Wanted:
    """Sizes with their cut, largest first, how many of each, and the bars to choose from.

    `step`: every plan costs a whole number of steps, or 0 where that is not so. `second`, bars with other
    costs, must stay within `cap`.
    """

    sizes: tuple[int, ...]
    counts: tuple[int, ...]
    stocks: tuple[Stock, ...]
    step: float = 0.0
    scale: float = 1e6  #: every cost times this is a whole number, or near enough to one
    second: tuple[Stock, ...] = ()
    second_scale: float = 1e6
    cap: float | None = None


@dataclass(frozen=True, slots=True)
class Answer:
    """Bars by pattern, what they cost, a cost that no plan undercuts, and whether this one is the least."""

    bars: Bars
    cost: float
    bound: float
    proven: bool
    uncut: int = 0


def column_cost(sizes: Sequence[int], stocks: Sequence[Stock], column: Column) -> float:
    """A bar's cost, less the worth of what is left of it."""
    stock = stocks[column[0]]
    if not stock.rate:
        return stock.cost
    left = stock.spare - sum(size * count for size, count in zip(sizes, column[1], strict=True))
    return stock.cost - stock.rate * max(left - stock.keep, 0)


def total_cost(wanted: Wanted, bars: Bars) -> float:
    """Of all bars."""
    return sum(column_cost(wanted.sizes, wanted.stocks, column) * times for column, times in bars)


def counted(kinds: Sequence[int], patterns: Sequence[Pattern]) -> Bars:
    """Bars cut alike, with their number; those that give nothing are not taken."""
    return tuple(Counter(pair for pair in zip(kinds, patterns, strict=True) if any(pair[1])).items())


def rounded_up(bound: float, step: float) -> float:
    """The least whole number of steps that is no less."""
    return math.ceil(bound / step - TINY) * step if step else bound


def held(best: Answer, wanted: Wanted, bound: float) -> Answer:
    """A plan held against a bound."""
    least = rounded_up(bound, wanted.step)
    return Answer(best.bars, best.cost, min(least, best.cost), best.cost <= least + TINY, best.uncut)


def costed(wanted: Wanted, column: Column) -> Costed:
    """A column with what it costs, by both sums."""
    second = column_cost(wanted.sizes, wanted.second, column) if wanted.second else 0.0
    return Costed(column, column_cost(wanted.sizes, wanted.stocks, column), second)


def put(master: Master, wanted: Wanted, column: Column) -> bool:
    """One column more; whether it is new."""
    return master.add(costed(wanted, column))
