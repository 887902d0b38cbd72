"""What a deal is worth: by watts, by panels that reach a rating, by money, by what is left."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

import numpy as np

from panewright.cell.root import Array
from panewright.lots.matching.asked import Aim, BestRemainder, MostMoney, MostReaching, MostWatts
from panewright.lots.matching.pieces import Whole

Score = tuple[float, ...]  #: compared in order; more is better


@dataclass(frozen=True, slots=True)
class Steps:
    """Ratings that count and what a panel of each earns, in whole hundredths or panels."""

    ratings_w: tuple[float, ...]
    earns: tuple[int, ...]

    @classmethod
    def of(cls, aim: Aim) -> Steps:
        """The steps of an aim; of most watts there are none."""
        if isinstance(aim, MostMoney):
            cents = tuple(int((step.price * 100).to_integral_value()) for step in aim.steps)
            return cls(tuple(step.from_w for step in aim.steps), cents)
        if isinstance(aim, MostWatts):
            return cls((), ())
        return cls((aim.rating_w,), (1,))

    def earned(self, watts: Array) -> Whole:
        """What each panel earns."""
        table = np.array([0, *self.earns], dtype=np.int64)
        return np.asarray(table[np.searchsorted(np.array(self.ratings_w), watts, side="right")])


def price(aim: Aim, watts: float) -> Decimal | None:
    """Money for a panel, where there are price steps."""
    if not isinstance(aim, MostMoney):
        return None
    reached = [step.price for step in aim.steps if watts >= step.from_w]
    return reached[-1] if reached else Decimal(0)


def kept(aim: Aim, watts: Array, used_w: Array) -> Whole:
    """Places of the panels that are made: all, or those that earn, or so many that use up least."""
    if isinstance(aim, MostWatts):
        return np.arange(watts.size)
    good = np.flatnonzero(Steps.of(aim).earned(watts))
    if isinstance(aim, BestRemainder):
        return np.sort(good[np.argsort(used_w[good], kind="stable")][: aim.panels])
    return good


def score(aim: Aim, watts: Array, left_w: float) -> Score:
    """How good panels are that are all made, with so many watts of cells left over."""
    if isinstance(aim, MostWatts):
        return (float(watts.sum()),)
    earned = float(Steps.of(aim).earned(watts).sum())
    return (earned, left_w) if isinstance(aim, BestRemainder) else (earned, float(watts.sum()))


__all__ = ["Aim", "MostReaching", "Score", "Steps", "kept", "price", "score"]
