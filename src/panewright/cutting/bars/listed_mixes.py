"""The cheapest mix out of a list of all: for few kinds of bars, of most of which few are there.

All numbers of all kinds but one are listed. Each rule asks for some bars of the last kind, at least so many
or at most; the least that all allow makes the cheapest mix with these numbers. A hundredth of the time of an
integer programme, and the same answer: all is whole numbers.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.int64]

_MOST = 50_000  #: mixes in a list
_NONE = -1  #: bars of a kind: less than any mix has


@dataclass(frozen=True, slots=True)
class Rules:
    """What a mix must keep: numbers of each kind, what it costs, and sums that it must reach."""

    costs: tuple[int, ...]
    rooms: tuple[int, ...]
    most: tuple[int, ...]
    sums: Sequence[tuple[Sequence[int], int]]  #: so much of each bar, together at least so much
    passed: Sequence[tuple[int, ...]]  #: of one kind at least it has more than each of these
    under: int
    least: int

    @property
    def last(self) -> int:
        """The kind that is not listed: it costs something, and there are most of it."""
        paid = [kind for kind, cost in enumerate(self.costs) if cost > 0]
        return max(paid, key=lambda kind: self.within[kind], default=-1)

    @property
    def within(self) -> tuple[int, ...]:
        """Of each kind no more than there are, nor than cost too much."""
        pairs = zip(self.most, self.costs, strict=True)
        return tuple(min(most, self.under // cost) if cost > 0 else most for most, cost in pairs)

    @property
    def few(self) -> bool:
        """Whether all may be listed."""
        others = (most + 1 for kind, most in enumerate(self.within) if kind != self.last)
        return self.last >= 0 and self.under >= 0 and math.prod(others) <= _MOST


def cheapest_listed(rules: Rules) -> tuple[int, ...] | None:
    """The cheapest mix that keeps all rules, the roomiest of these; None where there is none."""
    last = rules.last
    others = [kind for kind in range(len(rules.costs)) if kind != last]
    listed = _listed([rules.within[kind] for kind in others])
    needed, most = _within(rules, listed, others)
    cost = listed @ _of(rules.costs, others) + needed * rules.costs[last]
    good = np.flatnonzero((needed <= most) & (cost < rules.under))
    if not good.size:
        return None
    good = good[cost[good] == cost[good].min()]
    room = listed[good] @ _of(rules.rooms, others) + needed[good] * rules.rooms[last]
    chosen = int(good[room.argmax()])
    mix = [0] * len(rules.costs)
    for kind, number in zip(others, listed[chosen].tolist(), strict=True):
        mix[kind] = number
    mix[last] = int(needed[chosen])
    return tuple(mix)


def _listed(most: Sequence[int]) -> Numbers:
    """All numbers from nothing to the most of each, a row for each set of them."""
    grids = np.meshgrid(*(np.arange(each + 1) for each in most), indexing="ij")
    return np.stack([grid.ravel() for grid in grids], axis=-1) if grids else np.zeros((1, 0), np.int64)


def _of(numbers: Sequence[int], kinds: Sequence[int]) -> Numbers:
    return np.array([numbers[kind] for kind in kinds], np.int64)


def _within(rules: Rules, listed: Numbers, others: Sequence[int]) -> tuple[Numbers, Numbers]:
    """How many bars of the last kind may stand beside each of these numbers: at least, and at most."""
    last = rules.last
    needed, most = np.zeros(len(listed), np.int64), np.full(len(listed), rules.most[last])
    for values, need in [*rules.sums, (rules.costs, rules.least)]:
        short, each = need - listed @ _of(values, others), values[last]
        if each > 0:
            np.maximum(needed, -(-short // each), out=needed)
        elif each < 0:
            np.minimum(most, -short // -each, out=most)
        else:
            most[short > 0] = _NONE
    for mix in rules.passed:
        within = (listed <= _of(mix, others)).all(axis=1)
        np.maximum(needed, np.where(within, mix[last] + 1, 0), out=needed)
    return needed, most
