"""The cheapest panel that reaches a rating, where every piece has a price: a cost that none undercuts.

For any weight m >= 0 of a watt, a panel that works in one row of the ceilings and reaches R costs

    cost >= m R - (most that a full set of pieces can have of m watts - price),

and the best m is where the set's watts just meet R. Strings side by side may work each at its own current
here, so one weight counts for all rows; a single string has a weight for every row.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.cell.root import Array
from panewright.lots.matching.ceilings import Ceilings
from panewright.lots.matching.sets import Best, Room, dearest

_TURNS = 25


@dataclass(frozen=True, slots=True)
class Shop:
    """All that a panel's cost depends on but the prices."""

    ceilings: Ceilings
    room: Room
    strings: int  #: that work each at its own current

    def sets(self, weight: Array, prices: Array) -> tuple[Array, Best]:
        """For every row: most that a string can have of weight times watts less prices."""
        best = dearest(weight[:, None] * self.ceilings.piece_w - prices, self.room)
        return best.worth + weight * self.ceilings.string_w, best

    def watts(self, taken: Array) -> Array:
        """Most watts of strings of these pieces, row by row. [W]"""
        return np.asarray((taken * self.ceilings.piece_w).sum(axis=1) + self.ceilings.string_w)

    def cost(self, rating_w: float, weight: Array, prices: Array) -> float:
        """No panel that reaches the rating costs less, by these weights of a watt."""
        worth, _ = self.sets(weight, prices)
        if self.strings == 1:
            return float((weight * rating_w - worth).min())
        return float(weight[0] * rating_w - self.strings * worth.max())


@dataclass(frozen=True, slots=True)
class Cheapest:
    """A cost that no panel undercuts, the weights that prove it, and panels that come near."""

    cost: float
    weight: Array
    costs: Array  #: of every panel here
    taken: Array  #: (panels, pieces), in parts


def cheapest(shop: Shop, rating_w: float, prices: Array) -> Cheapest:
    """The cheapest panel that reaches a rating."""
    return _alone(shop, rating_w, prices) if shop.strings == 1 else _abreast(shop, rating_w, prices)


def _alone(shop: Shop, rating_w: float, prices: Array) -> Cheapest:
    """Row by row: two sets, one that fails the rating and one that reaches it, drawn together."""
    rows = shop.ceilings.low_a.size * 2
    strong = dearest(shop.ceilings.piece_w, shop.room).taken
    over = shop.watts(strong) - rating_w
    weak = dearest(np.broadcast_to(-prices, (rows, prices.size)), shop.room).taken
    never, free = over < 0, shop.watts(weak) >= rating_w
    weak[never] = strong[never]
    strong[free] = weak[free]
    weight = np.zeros(rows)
    for _ in range(_TURNS):
        lack, more = rating_w - shop.watts(weak), rating_w - shop.watts(strong)
        cost_weak, cost_strong = weak @ prices, strong @ prices
        at = np.where(lack - more > 1e-12, (cost_strong - cost_weak) / np.maximum(lack - more, 1e-12), 0.0)
        weight = np.where(never | free, 0.0, np.maximum(at, 0.0))
        worth, best = shop.sets(weight, prices)
        drawn = weight * lack + cost_weak
        better = (weight * rating_w - worth < drawn - 1e-9 * (1 + np.abs(drawn))) & ~never & ~free
        if not better.any():
            break
        reaches = shop.watts(best.taken) >= rating_w
        strong[better & reaches], weak[better & ~reaches] = (
            best.taken[better & reaches],
            best.taken[better & ~reaches],
        )
    weight[never] = _steep(shop, rating_w, prices)[never]
    worth, _ = shop.sets(weight, prices)
    bound = weight * rating_w - worth
    taken = _mixed(shop, rating_w, (weak, strong))
    return Cheapest(float(bound.min()), weight, np.where(never, np.inf, taken @ prices), taken)


def _steep(shop: Shop, rating_w: float, prices: Array) -> Array:
    """A weight by which a row that cannot reach the rating costs more than any that can."""
    lack = rating_w - shop.watts(dearest(shop.ceilings.piece_w, shop.room).taken)
    return np.where(lack > 0, 4 * (prices.sum() + 1) / np.maximum(lack, 1e-9), 0.0)


def _mixed(shop: Shop, rating_w: float, sets: tuple[Array, Array]) -> Array:
    """Of both sets so much that the rating is just met."""
    weak, strong = sets
    low, high = shop.watts(weak), shop.watts(strong)
    share = np.clip((rating_w - low) / np.maximum(high - low, 1e-12), 0.0, 1.0)[:, None]
    return np.asarray(weak * (1 - share) + strong * share)


def _abreast(shop: Shop, rating_w: float, prices: Array) -> Cheapest:
    """One weight for all rows, between a set that fails its share of the rating and one that reaches it."""
    rows, each = shop.ceilings.low_a.size * 2, rating_w / shop.strings
    ones = np.ones(rows)
    weak, _ = _top(shop, 0 * ones, prices)
    strong = dearest(shop.ceilings.piece_w, shop.room).taken
    strongest = strong[int(shop.watts(strong).argmax())]
    if float(shop.watts(np.broadcast_to(strongest, strong.shape)).max()) < each:
        steep = ones * float(_steep(shop, each, prices).max())
        cost = shop.cost(rating_w, steep, prices)
        return Cheapest(cost, steep, np.zeros(0), np.zeros((0, prices.size)))
    sides, weight, found = [weak, strongest], 0.0, weak
    for _ in range(_TURNS):
        low, high = (_most(shop, side) for side in sides)
        if low >= each:
            weight = 0.0
            break
        weight = max(float((sides[1] - sides[0]) @ prices) / max(high - low, 1e-12), 0.0)
        found, most = _top(shop, weight * ones, prices)
        if weight * each - most >= weight * (each - low) + float(sides[0] @ prices) - 1e-9:
            break
        sides[int(_most(shop, found) >= each)] = found
    worth, best = shop.sets(weight * ones, prices)
    taken = shop.strings * _pairs(shop, each, worth, best.taken, sides)
    bound = weight * rating_w - shop.strings * float(worth.max())
    return Cheapest(bound, weight * ones, taken @ prices, taken)


def _most(shop: Shop, taken: Array) -> float:
    return float((shop.ceilings.piece_w @ taken + shop.ceilings.string_w).max())


def _top(shop: Shop, weight: Array, prices: Array) -> tuple[Array, float]:
    worth, best = shop.sets(weight, prices)
    row = int(worth.argmax())
    return best.taken[row], float(worth[row])


def _pairs(shop: Shop, each: float, worth: Array, taken: Array, sides: list[Array]) -> Array:
    """Panels of a string above and one below the mean that is asked, in such parts that it is met."""
    watts, order = shop.watts(taken), np.argsort(-worth, kind="stable")
    above, below = order[watts[order] >= each][:12], order[watts[order] < each][:12]
    count = max(above.size, below.size)
    strong = np.array(
        [taken[above[k % above.size]] if above.size else sides[1] for k in range(count)] + [sides[1]]
    )
    weak = np.array(
        [taken[below[k % below.size]] if below.size else sides[0] for k in range(count)] + [sides[0]]
    )
    table = shop.ceilings
    low = (weak @ table.piece_w.T + table.string_w).max(axis=1)
    high = (strong @ table.piece_w.T + table.string_w).max(axis=1)
    share = np.clip((each - low) / np.maximum(high - low, 1e-12), 0.0, 1.0)[:, None]
    return np.asarray(weak * (1 - share) + strong * share)
