"""Prices for numbers of panels that reach ratings, from the programme over stretches.

Panels in parts work in rows of the table, each row as a whole reaching its rating; the common share of the
numbers that are wanted is made most. Column generation says the same a panel at a time, and jumps about where
panels are few; here a few solutions settle it. What the prices prove is reckoned over all rows; rows in which
a panel costs little come in, until none does that is not in.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from panewright.cell.root import Array
from panewright.circuit.network import Network
from panewright.lots.matching.pieces import Pieces
from panewright.lots.matching.proof.pricing import Cheapest, Shop, cheapest

_ROUNDS = 20
_ADDED = 4  # rows at a time, of every rating
_KEPT = 3  # of so many programmes rows that were used stay
_NEAR = 1e-6  # of a common share: nothing is gained any more
_MOST = 12_000  # open places of a programme; more are not solved for
_FINER, _PARTS, _WIDTH = 1, 4, 6e-4  # times that a table is made finer; parts; of the current: no further
_BLEND = (1.0, 0.5)  # of the last prices, the rest of the best

Whole = NDArray[np.int64]
Rows = dict[int, set[int]]  #: of every rating that is wanted, rows of the table


@dataclass(frozen=True, slots=True)
class Shared:
    """The best prices met and the common share that they allow at most, the programme's own, and its rows."""

    prices: Array
    bound: float
    value: float
    rows: Rows

    @property
    def open(self) -> bool:
        """Whether so many panels can be made in parts: no prices refute that."""
        return self.value >= 1 - _NEAR


def finely_shared(
    bench: tuple[Pieces, Network],
    shop: Shop,
    asked: tuple[tuple[float, ...], tuple[float, ...]],
    begin: Array,
    enough: float,
) -> tuple[Shared | None, Shop]:
    """The same by a table that is made finer where panels work, as long as it leaves the question open."""
    found = shared(shop, *asked, begin, enough)
    for _ in range(_FINER):
        if found is None or not found.open or found.bound < enough:
            break
        finer = _narrower(bench, shop, found)
        if finer is None:
            break
        shop, found = finer, shared(finer, *asked, found.prices, enough)
    return found, shop


def _narrower(bench: tuple[Pieces, Network], shop: Shop, found: Shared) -> Shop | None:
    """The stretches of a programme's rows parted; None where they are narrow."""
    table = shop.ceilings
    rows = np.array(sorted(set[int]().union(*found.rows.values())), dtype=np.int64)
    rows = np.unique(rows % table.low_a.size)
    rows = rows[(table.high_a - table.low_a)[rows] > _WIDTH * table.high_a[rows]]
    return replace(shop, ceilings=table.parted(bench, rows, _PARTS)) if rows.size else None


def shared(
    shop: Shop, ratings_w: tuple[float, ...], share: tuple[float, ...], begin: Array, enough: float
) -> Shared | None:
    """Prices for numbers of panels; `begin`: prices to start with; a share below `enough` will do."""
    if shop.strings > 1 or not shop.room.fills:
        return None
    wanted = [t for t, number in enumerate(share) if number]
    best, found = _proven(shop, ratings_w, share, begin)
    rows: Rows = {t: set(_cheap(found[t], 2 * _ADDED)) for t in wanted}
    if not all(rows.values()):  # no panel reaches that, whatever it costs
        return Shared(begin, best, min(best, 0.0), rows)
    prices, value, before = begin, -np.inf, list[Rows]()
    for _ in range(_ROUNDS):
        last = _solved(shop, ratings_w, share, rows)
        if last is None:
            break
        value, grown, near = last[0], False, last[2]
        for part in _BLEND:
            tried = part * last[1] + (1 - part) * prices
            bound, found = _proven(shop, ratings_w, share, tried)
            if bound < best:
                best, prices = bound, tried
            for t in wanted:
                cheap = set(_cheap(found[t], _ADDED))
                grown |= not cheap <= rows[t]
                near[t] |= cheap
        if best < enough or value >= 1 - _NEAR or best - value < _NEAR or not grown:
            break
        before = [*before[1 - _KEPT :], near]
        rows = {t: set[int]().union(*(each[t] for each in before)) for t in wanted}
    return Shared(prices, best, value, rows)


def _proven(
    shop: Shop, ratings_w: tuple[float, ...], share: tuple[float, ...], prices: Array
) -> tuple[float, dict[int, Cheapest]]:
    """The common share that prices allow at most, and the cheapest panels."""
    found = {t: cheapest(shop, ratings_w[t], prices) for t, number in enumerate(share) if number}
    asked = sum(share[t] * each.cost for t, each in found.items())
    return (float(prices.sum()) / asked if asked > 0 else np.inf), found


def _cheap(found: Cheapest, count: int) -> list[int]:
    """Rows in which a panel costs least."""
    reached = np.flatnonzero(np.isfinite(found.costs))
    order: list[int] = reached[np.argsort(found.costs[reached], kind="stable")][:count].tolist()
    return order


def _solved(
    shop: Shop, ratings_w: tuple[float, ...], share: tuple[float, ...], rows: Rows
) -> tuple[float, Array, Rows] | None:
    """The common share in these rows, prices, rows used; None where that is too much or not solved."""
    from scipy.optimize import linprog

    lines = [(t, row, f) for t in rows for row in sorted(rows[t]) for f in range(len(shop.room.fills))]
    if not lines or len(lines) * shop.room.size.size > _MOST:
        return None
    less, limit, same = _lines(shop, ratings_w, share, np.array(lines))
    gain = np.zeros(less.shape[1])
    gain[-1] = -1.0
    found = linprog(gain, less, limit, same, np.zeros(same.shape[0]), method="highs")
    if found.status != 0 or found.x is None:
        return None
    made = found.x[-1 - len(lines) : -1]
    used: Rows = {
        t: {row for (s, row, _), n in zip(lines, made, strict=True) if s == t and n > 1e-9} for t in rows
    }
    return float(found.x[-1]), np.maximum(0.0, -found.ineqlin.marginals[: shop.room.size.size]), used


Lots = tuple[Any, Array, Any]  #: rows that are no more than a limit, the limit, rows that come to nothing


def _lines(shop: Shop, ratings_w: tuple[float, ...], share: tuple[float, ...], lines: Whole) -> Lots:
    """Columns: pieces in lines, then how often a line is made, then the share."""
    from scipy.sparse import vstack

    room, number = shop.room, len(lines)
    line, piece = np.nonzero(~room.shut & _bearable(shop.ceilings.piece_w[lines[:, 1]]))
    places = _Places(shop, lines, line, piece)
    less = [
        places.sums(np.ones(line.size), piece, None, room.size.size),
        places.watts(np.array(ratings_w)),
        places.wanted(np.array(share)),
        places.within(),
    ]
    for kind, most in ((room.leaky, room.most_leaky), (room.short, room.most_short)):
        if kind.any():
            less.append(places.of(kind, np.full(number, float(most))))
    limit = np.zeros(sum(each.shape[0] for each in less))
    limit[: room.size.size] = 1.0
    fills = np.array(room.fills, dtype=float)[lines[:, 2]]
    same = [places.of(room.size == size, fills[:, s]) for s, size in enumerate(room.sizes.tolist())]
    return vstack(less).tocsr(), limit, vstack(same).tocsr()


def _bearable(piece_w: Array) -> NDArray[np.bool_]:
    """Pieces that take less from a line than another may give; a line with others is hard to solve."""
    return np.asarray(piece_w > -piece_w.max(axis=1, keepdims=True))


@dataclass(frozen=True, slots=True)
class _Places:
    """Open places of a programme: of each its line and its piece."""

    shop: Shop
    lines: Whole  #: (lines, 3): rating, row, fill
    line: Whole
    piece: Whole

    def sums(self, values: Array, at: Whole, made: tuple[Array, Whole] | None, height: int) -> Any:
        """Rows with values of places, and of lines as often as they are made."""
        from scipy.sparse import csr_matrix

        wide = self.line.size + len(self.lines) + 1
        column = np.arange(values.size if made is None else values.size + made[0].size)
        if made is not None:
            values, at = np.concatenate([values, made[0]]), np.concatenate([at, made[1]])
        return csr_matrix((values, (at, column)), (height, wide))

    def watts(self, ratings_w: Array) -> Any:
        """Every line reaches its rating."""
        table, row, every = self.shop.ceilings, self.lines[:, 1], np.arange(len(self.lines))
        lack = ratings_w[self.lines[:, 0]] - table.string_w[row]
        watts = table.piece_w[row[self.line], self.piece]
        return self.sums(-watts, self.line, (lack, every), every.size)

    def wanted(self, share: Array) -> Any:
        """Lines of every rating are as many as the share of what is wanted."""
        from scipy.sparse import csr_matrix

        kinds, of_kind = np.unique(self.lines[:, 0], return_inverse=True)
        made = self.line.size + np.arange(len(self.lines) + 1)
        column = np.concatenate([made[:-1], np.full(kinds.size, made[-1])])
        values = np.concatenate([-np.ones(len(self.lines)), share[kinds]])
        at = np.concatenate([of_kind.reshape(-1), np.arange(kinds.size)])
        return csr_matrix((values, (at, column)), (kinds.size, made[-1] + 1))

    def within(self) -> Any:
        """No piece is in a line more often than it is made."""
        from scipy.sparse import csr_matrix

        every, ones = np.arange(self.line.size), np.ones(self.line.size)
        column = np.concatenate([every, every.size + self.line])
        wide = every.size + len(self.lines) + 1
        return csr_matrix((np.concatenate([ones, -ones]), (np.tile(every, 2), column)), (every.size, wide))

    def of(self, kind: NDArray[np.bool_], most: Array) -> Any:
        """Pieces of a kind in every line, less what there is room for as often as it is made."""
        mine, every = kind[self.piece].astype(float), np.arange(len(self.lines))
        return self.sums(mine, self.line, (-most, every), every.size)
