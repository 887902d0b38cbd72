"""Prices from the programme over stretches, grown as it needs: stretches that would pay, and pieces in them.

It begins with the stretches in which a deal's strings work. What its prices prove is reckoned over all
stretches and all pieces; where some set would pay better, its stretch and its pieces come in. When nothing
pays any more, the stretches that matter are parted, and all begins again on the finer table.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from panewright.cell.root import Array
from panewright.circuit.network import Network
from panewright.lots.matching.pieces import Pieces
from panewright.lots.matching.proof.ceilings import Ceilings
from panewright.lots.matching.proof.fills import Fill
from panewright.lots.matching.proof.pricing import Shop
from panewright.lots.matching.proof.programme import Line, Mask, Solved, solved
from panewright.lots.matching.proof.relieved import Relieved
from panewright.lots.matching.proof.sets import Best
from panewright.lots.matching.proof.windows import Windows

_ROUNDS = 40
_WORK = 300  # open places to solve for in all, for every piece
_PAYS = 1e-7  # watts
_INSIDE = 0.5  # of a stretch: where its strings are said to work
_NEAR = 1e-7  # of the bound: nothing pays more
_ADDED = 12  # stretches at a time
_PARTS = 4
_SHARES = (0.25, 0.6, 1.0)  # of the last prices, the rest of the best
_WIDTH = 6e-4  # of the current: no stretch that matters is parted further
_PAST = 0.6  # of the strongest string's watts: others with a substring carried past are not asked for
_LOOSE = 0.002  # of a piece's watts: pieces that nearly come in do


@dataclass(frozen=True, slots=True)
class Found:
    """The best prices met, what they prove, and where strings work: current and how many."""

    shop: Shop
    prices: Array
    bound: float
    current_a: Array
    strings: Array
    open_to: dict[int, Mask]


@dataclass(slots=True)
class Growing:
    """A programme that grows: rows of the table, and pieces that are open to each."""

    shop: Shop
    strings: int
    open_to: dict[int, Mask]
    enough: float  #: a bound as low as this will do
    work: int  #: open places that may still be solved for
    windows: Windows | None = None  #: None: strings work where they like
    best: tuple[float, Array] | None = None
    solve: Callable[[Shop, tuple[Line, ...], Mask, Windows], Solved | None] = solved

    def found(self) -> tuple[Solved, Found] | None:
        """Prices that nothing would pay better, or the best met."""
        last: tuple[Solved, tuple[Line, ...]] | None = None
        for _ in range(_ROUNDS):
            lines = tuple(line for row in sorted(self.open_to) for line in self._lines(row))
            masks = np.array([self.open_to[line.row] & any(line.fill) for line in lines])
            self.work -= int(masks.sum())
            done = self.solve(self.shop, lines, masks, self._room()) if self.work >= 0 else None
            if done is None:
                break
            last = done, lines
            if self.settled(done.value):
                break
            asked = [self.proven(prices) for prices in self._between(done.prices)]
            if self.settled(done.value) or not sum(self._grown(done, *each) for each in asked):
                break
        return None if last is None or self.best is None else (last[0], self._told(*last))

    def _room(self) -> Windows:
        return self.windows or Windows.wide(self.strings)

    def _lines(self, row: int) -> list[Line]:
        """Strings that a row's open pieces are enough for; one that gives nothing is always there."""
        room, mine = self.shop.room, self.open_to[row]
        there = [int((room.size[mine] == size).sum()) for size in room.sizes]
        fills: list[tuple[Fill, Relieved | None]] = [(fill, None) for fill in room.fills]
        fills += [(fill, each) for each in self._past(row) for fill in each.counts.fills]
        fills = [each for each in fills if all(n <= m for n, m in zip(each[0], there, strict=True))]
        return [Line(row, fill, past) for fill, past in fills] + [Line(row, (0,) * len(there))]

    def _past(self, row: int) -> list[Relieved]:
        """Ways to carry a row's current past substrings, where some open piece is below nothing.

        Pieces under the diodes are not asked here: so only ways for which there are enough.
        """
        table, room = self.shop.ceilings, self.shop.room
        if not (table.piece_w[row, self.open_to[row]] < 0).any():
            return []
        if self.shop.past_w[row] < _PAST * self.shop.most_w.max():
            return []
        plain = int(room.size[~(table.sunk[row] | room.shut)].sum()) >= room.length
        dark = bool(table.sunk[row].any())
        return [each for each in self.shop.relieved if (dark if each.deep else plain)]

    def settled(self, value: float) -> bool:
        """Whether the best bound is low enough, or as low as it goes."""
        return self.best is not None and (
            self.best[0] <= self.enough or self.best[0] - value <= _NEAR * self.best[0]
        )

    def _between(self, prices: Array) -> list[Array]:
        """The last prices, and some between them and the best ones."""
        if self.best is None:
            return [prices]
        return [share * prices + (1 - share) * self.best[1] for share in _SHARES]

    def proven(self, prices: Array) -> tuple[Array, Array, Best]:
        """What prices prove; the best are kept."""
        worth, best = self.shop.sets(np.ones(2 * self.shop.ceilings.low_a.size), prices)
        bound = float(prices.sum()) + float(self._room().worths(self.shop.ceilings, worth).sum())
        if self.best is None or bound < self.best[0]:
            self.best = bound, prices
        return prices, worth, best

    def _grown(self, done: Solved, prices: Array, worth: Array, best: Best) -> bool:
        """Stretches that would pay come in, and pieces that would pay in those there are."""
        over, grown = worth - np.tile(done.pays, 2), False
        for row in self.open_to:
            more = best.taken[row] > 0
            if over[row] > _PAYS and (more & ~self.open_to[row]).any():
                self.open_to[row] |= self.nearly(row, prices, more)
                grown = True
        tops = [row for row in self.tops(over) if row not in self.open_to and over[row] > _PAYS]
        for row in tops[:_ADDED]:
            self.open_to[row] = self.nearly(row, prices, best.taken[row] > 0)
        return grown or bool(tops)

    def tops(self, worth: Array) -> list[int]:
        """Rows that pay no less than their neighbours, the best first."""
        table = self.shop.ceilings
        order = np.argsort(np.concatenate([table.low_a, table.high_a]), kind="stable")
        row = worth[order]
        before, after = np.concatenate([[-np.inf], row[:-1]]), np.concatenate([row[1:], [-np.inf]])
        tops = order[(row >= before) & (row >= after)]
        found: list[int] = tops[np.argsort(-worth[tops], kind="stable")].tolist()
        return found

    def nearly(self, row: int, prices: Array, taken: Mask) -> Mask:
        """Pieces of a row that are taken, and those nearly as dear."""
        value = self.shop.ceilings.piece_w[row] - prices
        slack = _LOOSE * float(np.maximum(self.shop.ceilings.piece_w[row], 0.0).mean())
        return np.asarray(taken | (value >= value[taken].min(initial=np.inf) - slack))

    def _told(self, done: Solved, lines: tuple[Line, ...]) -> Found:
        table = self.shop.ceilings
        half, used = table.low_a.size, done.strings > 1e-7
        rows = np.array([line.row for line in lines])[used]
        at = (table.low_a + (table.high_a - table.low_a) * _INSIDE)[rows % half]
        if self.best is None:
            raise RuntimeError("nothing was solved")
        return Found(self.shop, self.best[1], self.best[0], at, done.strings[used], self.open_to)


def most_watts_prices(
    bench: tuple[Pieces, Network], shop: Shop, strings: int, begin: tuple[Array, Mask], enough: float
) -> Found | None:
    """Prices for most watts of so many strings; `begin`: currents of a deal's strings, pieces near each."""
    growing = Growing(shop, strings, _first(shop, *begin), enough, _WORK * bench[0].count)
    best: Found | None = None
    while True:
        done = growing.found()
        if done is None:
            return best
        best = done[1] if best is None or done[1].bound < best.bound else best
        finer = None if best.bound <= enough else _parted(bench, growing, done[1])
        if finer is None:
            return best
        growing = finer


def _first(shop: Shop, currents: Array, near: Mask) -> dict[int, Mask]:
    """Rows in which the strings of a deal work."""
    table, half = shop.ceilings, shop.ceilings.low_a.size
    found: dict[int, Mask] = {}
    for current, mine in zip(currents.tolist(), near, strict=True):
        k = _stretch(table, current)
        for row in (k, k + half):
            found[row] = found.get(row, np.zeros_like(mine)) | mine
    return found


def _stretch(table: Ceilings, current: float) -> int:
    inside = np.flatnonzero((table.low_a <= current) & (current <= table.high_a))
    return int(inside[0]) if inside.size else 0


def _parted(bench: tuple[Pieces, Network], growing: Growing, found: Found) -> Growing | None:
    """The stretches in which strings work, or nearly would, parted; None where they are narrow."""
    table = growing.shop.ceilings
    half = table.low_a.size
    worth, _ = growing.shop.sets(np.ones(2 * half), found.prices)
    used = [_stretch(table, float(at)) for at in found.current_a]
    near = np.flatnonzero(worth >= worth.max() - 3e-6 * found.bound / growing.strings) % half
    rows = np.unique(np.concatenate([np.array(used, dtype=np.int64), near]))
    rows = rows[(table.high_a - table.low_a)[rows] > _WIDTH * table.high_a[rows]]
    if not rows.size:
        return None
    shop = replace(growing.shop, ceilings=table.parted(bench, rows, _PARTS))
    return Growing(shop, growing.strings, _inherited(growing, shop, found), growing.enough, growing.work)


def _inherited(growing: Growing, shop: Shop, found: Found) -> dict[int, Mask]:
    """Rows of the finer table to begin with: those that pay most, each with pieces that nearly come in."""
    finer = Growing(shop, growing.strings, {}, growing.enough, 0)
    worth, best = shop.sets(np.ones(2 * shop.ceilings.low_a.size), found.prices)
    least = worth.max() - 1e-4 * found.bound / growing.strings
    begin = [row for row in finer.tops(worth) if worth[row] >= least]
    used = np.concatenate([[_stretch(shop.ceilings, float(at))] * 2 for at in found.current_a]).astype(int)
    used[1::2] += shop.ceilings.low_a.size
    return {
        row: finer.nearly(row, found.prices, best.taken[row] > 0) for row in sorted({*begin, *used.tolist()})
    }
