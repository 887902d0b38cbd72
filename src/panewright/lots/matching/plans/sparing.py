"""So many panels that reach a rating with the least of the lot's watts, so that the best remains."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from panewright.lots.matching.asked import BestRemainder
from panewright.lots.matching.pieces import Whole
from panewright.lots.matching.plans.making import Made, Maker, better
from panewright.lots.matching.plans.reaching import MARGIN, short
from panewright.lots.matching.plans.search import Goal

_DEAR = 1e4  # a watt short outweighs all that is left over


def sparing(maker: Maker, plain: Made) -> Made:
    """So many panels that reach a rating with the least of the lot's watts."""
    aim, best = maker.aim, plain
    if not isinstance(aim, BestRemainder):
        raise ValueError(f"what is left counts only for the best remainder, got {aim}")
    own = np.append(maker.rules.pieces.own_w, 0.0)
    for start in _sparing_starts(maker, plain):
        need = np.full(len(start), aim.rating_w * (1 + MARGIN))
        lifted = maker.exchanged(start, Goal(short(need), np.zeros(own.size)))
        goal = Goal(short(need, _DEAR), own)
        spared = maker.coupled(maker.exchanged(lifted, goal), goal)
        best = better(best, maker.made(spared))
    return best


def _sparing_starts(maker: Maker, plain: Made) -> Iterator[Whole]:
    if len(plain.strings) == maker.panels:
        yield plain.strings
    for start in maker.starts(maker.panels):
        if len(start) == maker.panels:
            yield start
