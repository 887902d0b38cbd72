"""The cheapest panel that reaches a rating, where every piece has a price: a cost that none undercuts.

For any weight m >= 0 of a watt, a panel that works in one row of the ceilings and reaches R costs

    cost >= m R - (most that a full set of pieces can have of m watts - price),

and the best m is where the set's watts just meet R. Strings side by side may work each at its own current
here, so one weight counts for all rows; a single string has a weight for every row. Where pieces count below
nothing, a string of which a diode carries the current past a substring is looked at beside (see `relieved`);
not where it has to reach a rating by itself and cannot.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from panewright.cell.root import Array
from panewright.lots.matching.proof.ceilings import Ceilings
from panewright.lots.matching.proof.relieved import Relieved
from panewright.lots.matching.proof.sets import Best, Room, dearest

_TURNS = 25
Whole = NDArray[np.int64]
Rows = slice | Whole
EVERY = slice(None)


@dataclass(frozen=True, slots=True)
class Shop:
    """All that a panel's cost depends on but the prices."""

    ceilings: Ceilings
    room: Room
    strings: int  #: that work each at its own current
    strongest: Array = field(init=False)  #: of every row the pieces that give most watts
    most_w: Array = field(init=False)  #: and what they give
    relieved: tuple[Relieved, ...] = field(init=False)
    past_w: Array = field(init=False)  #: most of every row where a diode carries the current past a substring

    def __post_init__(self) -> None:
        table, room = self.ceilings, self.room
        object.__setattr__(self, "relieved", tuple(Relieved.of(each, room) for each in table.spared))
        positive = np.maximum(table.piece_w, 0.0)
        past = [
            np.where(
                self._open(each, EVERY), each.most(positive, table.sunk) - each.deep * table.drop_w, -np.inf
            )
            for each in self.relieved
        ]
        none = np.full(table.string_w.size, -np.inf)
        object.__setattr__(self, "past_w", np.max([none, *past], axis=0) + table.string_w)
        most, best = self.sets(np.ones(table.string_w.size), np.zeros(room.size.size))
        object.__setattr__(self, "strongest", best.taken)
        object.__setattr__(self, "most_w", most)

    def sets(
        self, weight: Array, prices: Array, rows: Rows = EVERY, least_w: float = -np.inf
    ) -> tuple[Array, Best]:
        """For every row, or for some: most that a string can have of weight times watts less prices.

        Strings past which a diode carries current count only in rows where they may give `least_w`.
        """
        table = self.ceilings
        best = dearest(weight[:, None] * table.piece_w[rows] - prices, self.room)
        found = Best(best.worth + weight * table.string_w[rows], best.taken)
        if self.relieved:
            able = np.flatnonzero(self.past_w[rows] >= least_w)
            found = self._relieved(found, (weight, prices), rows, able) if able.size else found
        return found.worth, found

    def _relieved(self, found: Best, asked: tuple[Array, Array], rows: Rows, able: Whole) -> Best:
        """The same, or what is more where a diode carries the current past a substring."""
        (weight, prices), table = asked, self.ceilings
        cheap = float(dearest(-prices[None], self.room).worth[0])
        near = able[weight[able] * self.past_w[rows][able] + cheap > found.worth[able]]
        if not near.size:
            return found
        at, mine = np.arange(table.string_w.size)[rows][near], weight[near]
        worth, taken = found.worth.copy(), found.taken.copy()
        values = mine[:, None] * np.maximum(table.piece_w[at], 0.0) - prices
        for each in self.relieved:
            best = each.dearest(values, prices, table.sunk[at])
            more = best.worth + mine * (table.string_w[at] - each.deep * table.drop_w[at])
            better = (more > worth[near]) & self._open(each, at)
            worth[near[better]], taken[near[better]] = more[better], best.taken[better]
        return Best(worth, taken)

    def _open(self, each: Relieved, rows: Rows) -> NDArray[np.bool_]:
        """Rows of which that need be asked: nothing is gained by diodes that take something without need."""
        return np.asarray(self.ceilings.sunk[rows].any(axis=1) | (each.deep == 0))

    def watts(self, taken: Array, rows: Rows = EVERY) -> Array:
        """Most watts of strings of these pieces, row by row. [W]"""
        table = self.ceilings
        return np.asarray(np.einsum("ij,ij->i", taken, table.piece_w[rows]) + table.string_w[rows])

    def cost(self, rating_w: float, weight: Array, prices: Array) -> float:
        """No panel that reaches the rating costs less, by these weights of a watt."""
        if self.strings == 1:
            worth, _ = self.sets(weight, prices, least_w=rating_w)
            return float((weight * rating_w - worth).min())
        worth, _ = self.sets(weight, prices)
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
    """Row by row: two sets, one that fails the rating and one that reaches it, drawn together.

    A row whose cost is seen to lie above that of a panel which is known already is left as it is.
    """
    strong, lightest = shop.strongest.copy(), dearest(-prices[None], shop.room).taken
    weak = np.repeat(lightest, len(strong), axis=0)
    high, low = shop.most_w.copy(), shop.watts(weak)
    never, free = high < rating_w, low >= rating_w
    weak[never], low[never] = strong[never], high[never]
    strong[free], high[free] = weak[free], low[free]
    weight = np.zeros(len(strong))
    rows = np.flatnonzero(~(never | free))
    known = np.inf if not free.any() else float((weak[free] @ prices).min())
    for _ in range(_TURNS):
        cost, apart = weak[rows] @ prices, high[rows] - low[rows]
        rise = (strong[rows] @ prices - cost) / np.maximum(apart, 1e-12)
        weight[rows] = at = np.where(apart > 1e-12, np.maximum(rise, 0.0), 0.0)
        worth, best = shop.sets(at, prices, rows, rating_w)
        drawn, least = at * (rating_w - low[rows]) + cost, at * rating_w - worth
        known = min(known, float(drawn.min(initial=np.inf)))
        better = (least < drawn - 1e-9 * (1 + np.abs(drawn))) & (least < known)
        rows, taken = rows[better], best.taken[better]
        if not rows.size:
            break
        watts = np.where(at > 0, (best.worth + best.taken @ prices) / np.maximum(at, 1e-300), 0.0)[better]
        watts = np.maximum(watts, shop.watts(taken, rows))
        up = watts >= rating_w
        strong[rows[up]], high[rows[up]] = taken[up], watts[up]
        weak[rows[~up]], low[rows[~up]] = taken[~up], watts[~up]
    weight[never] = _steep(shop, rating_w, prices)[never]
    worth, _ = shop.sets(weight, prices, least_w=rating_w)
    bound = weight * rating_w - worth
    taken = _mixed(rating_w, (weak, strong), (low, high))
    return Cheapest(float(bound.min()), weight, np.where(never, np.inf, taken @ prices), taken)


def _steep(shop: Shop, rating_w: float, prices: Array) -> Array:
    """A weight by which a row that cannot reach the rating costs more than any that can."""
    lack = rating_w - shop.most_w
    return np.where(lack > 0, 4 * (prices.sum() + 1) / np.maximum(lack, 1e-9), 0.0)


def _mixed(rating_w: float, sets: tuple[Array, Array], watts: tuple[Array, Array]) -> Array:
    """Of both sets so much that the rating is just met."""
    (weak, strong), (low, high) = sets, watts
    share = np.clip((rating_w - low) / np.maximum(high - low, 1e-12), 0.0, 1.0)[:, None]
    return np.asarray(weak * (1 - share) + strong * share)


def _abreast(shop: Shop, rating_w: float, prices: Array) -> Cheapest:
    """One weight for all rows, between a set that fails its share of the rating and one that reaches it."""
    rows, each = shop.ceilings.low_a.size * 2, rating_w / shop.strings
    ones = np.ones(rows)
    weak, _ = _top(shop, 0 * ones, prices)
    strongest = shop.strongest[int(shop.most_w.argmax())]
    if _most(shop, strongest) < each:
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
