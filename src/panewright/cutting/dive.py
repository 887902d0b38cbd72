"""A plan out of the linear programme: the pattern it likes best is cut, and it is asked again for the rest.

Quick, and good where there are many small pieces. What it leaves is filled by rule.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence

from panewright.cutting.master import Column, Costed, Master
from panewright.cutting.patterns import Pattern, dearest_pattern

_TURNS = 4  # new patterns asked for, for each that is cut


def dived(
    master: Master, sizes: Sequence[int], counts: Sequence[int], room: int
) -> tuple[tuple[Column, int], ...]:
    """Bars of the one kind there is; the master is left as it was found."""
    left, cut = list(counts), Counter[Column]()
    while any(left):
        liked = _liked(master, sizes, left, room)
        if liked is None:
            break
        pattern, times = liked
        for _ in range(times):
            served = _served(pattern, left)
            if not any(served):
                break
            left = [have - taken for have, taken in zip(left, served, strict=True)]
            cut[0, served] += 1
    master.want(counts)
    return () if any(left) else tuple(cut.items())


def _liked(
    master: Master, sizes: Sequence[int], left: Sequence[int], room: int
) -> tuple[Pattern, int] | None:
    """The pattern taken most often by the linear programme for what is left, and how often at least."""
    master.want(left)
    for _ in range(_TURNS):
        prices = master.relaxed()
        if prices is None:
            return None
        best = dearest_pattern(sizes, left, room, prices.pieces, thorough=False)
        if best.worth <= 1 + 1e-6 or not master.add(Costed((0, best.pattern), 1.0)):
            break
    if master.relaxed() is None:
        return None
    values = master.values()
    place = max(range(len(values)), key=lambda i: (values[i], -i), default=None)
    if place is None or values[place] <= 1e-6:
        return None
    return master.columns[place].column[1], max(1, math.floor(values[place] + 1e-6))


def _served(pattern: Pattern, left: Sequence[int]) -> Pattern:
    """What a bar so cut gives of what is left: a place for a long piece may serve a shorter one."""
    have, served, spare = list(left), [0] * len(left), 0
    for place, count in enumerate(pattern):
        spare += count
        taken = min(spare, have[place])
        served[place], spare = taken, spare - taken
    return tuple(served)
