"""What the linear programme's prices say: ways to cut that would pay, and what no plan can undercut.

[GG] see `panewright.cutting.bars.patterns`, [F] see `panewright.cutting.bars.programme`.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from panewright.cutting.bars.column import Column
from panewright.cutting.bars.master import Prices
from panewright.cutting.bars.table import Pieces, Table, Way, fits
from panewright.cutting.bars.wanted import TINY, Stock, Wanted

_NEW = 80  #: columns from one table for one room


@dataclass(frozen=True, slots=True)
class Offer:
    """Columns of one kind of bar that would pay, and by how much surely none pays more."""

    kind: int
    columns: tuple[Column, ...]
    excess: float  #: infinite where the table was too coarse to say


@dataclass(frozen=True, slots=True)
class _Room:
    """A length to be filled from one kind of bar, and what its pieces must be worth."""

    kind: int
    room: int
    asked: float


def offers(
    wanted: Wanted,
    prices: Prices,
    counts: Sequence[int],
    *,
    thorough: bool = True,
    unused: Collection[int] = (),
) -> list[Offer]:
    """For every kind of bar the ways that pay for it, from one table for all that ask the same [GG].

    `counts`: no more pieces than these from one bar. Where lengths are rounded, only a `thorough` call
    gives an excess. Of kinds that are `unused` no ways are looked for.
    """
    found = []
    for rate, rooms in _rooms(wanted, prices).items():
        worth = [w - rate * size for w, size in zip(prices.pieces, wanted.sizes, strict=True)]
        pieces = Pieces(wanted.sizes, tuple(counts), tuple(worth))
        for room, (ways, most) in zip(rooms, _dearest(pieces, rooms, unused, thorough=thorough), strict=True):
            columns = tuple((room.kind, way.pattern) for way in ways[:_NEW])
            found.append(Offer(room.kind, columns, most - room.asked))
    return found


def _rooms(wanted: Wanted, prices: Prices) -> dict[float, list[_Room]]:
    """Rooms to fill by what a unit of their rest is worth; a rest that is kept has a room of its own."""
    rooms: dict[float, list[_Room]] = {0.0: []}
    for kind, stock in enumerate(wanted.stocks):
        cost, rate = asked_of(wanted, prices, kind)
        rooms[0.0].append(_Room(kind, stock.room, cost))
        kept = stock.spare - stock.keep
        if rate and kept > 0:
            rooms.setdefault(rate, []).append(_Room(kind, kept, cost - rate * kept))
    return rooms


def _dearest(
    pieces: Pieces, rooms: Sequence[_Room], unused: Collection[int], *, thorough: bool
) -> Iterator[tuple[list[Way], float]]:
    """Ways that pay for each room, and what none of them is worth more than."""
    lengths = [each.room for each in rooms]
    asked = [math.inf if each.kind in unused else each.asked + TINY for each in rooms]
    table = Table(pieces, max(lengths))
    if table.exact:
        yield from zip(table.ways(lengths, asked), map(table.most, lengths), strict=True)
    elif not thorough:
        yield from ((ways, math.inf) for ways in table.ways(lengths, asked))
    else:
        coarse = Table(pieces, max(lengths), up=False)
        both = zip(lengths, table.ways(lengths, asked), coarse.ways(lengths, asked), strict=True)
        for room, ways, more in both:
            good = [way for way in more if fits(way.pattern, pieces.sizes, room)]
            yield sorted([*ways, *good], key=lambda way: -way.worth), coarse.most(room)


def asked_of(wanted: Wanted, prices: Prices, kind: int) -> tuple[float, float]:
    """What the pieces of one bar must be worth, and what a unit of its rest is worth."""
    stock = wanted.stocks[kind]
    cost, rate = stock.cost - prices.bars[kind], stock.rate
    if wanted.second:
        cost -= prices.cap * wanted.second[kind].cost
        rate -= prices.cap * wanted.second[kind].rate
    return cost, rate


def lower(wanted: Wanted, prices: Prices, found: Sequence[Offer]) -> float:
    """No plan costs less, by these prices: scaled down until no bar pays [F], or less what each could."""
    pieces = sum(worth * count for worth, count in zip(prices.pieces, wanted.counts, strict=True))
    scarce = scarcity(wanted.stocks, prices) + prices.cap * (wanted.cap or 0.0)
    most = max(offer.excess for offer in found)
    if most <= 0:
        return pieces + scarce
    less = pieces + scarce - most * sum(wanted.counts)
    if any(stock.rate for stock in (*wanted.stocks, *wanted.second)):
        return less
    return max(less, shrunk(wanted, prices, found) * pieces + scarce)


def scarcity(stocks: Sequence[Stock], prices: Prices) -> float:
    """What bars that run out add to the bound: 0 or less."""
    return sum(price * (stock.have or 0) for price, stock in zip(prices.bars, stocks, strict=True))


def shrunk(wanted: Wanted, prices: Prices, found: Sequence[Offer]) -> float:
    """The share of all prices at which no pattern is worth more than its bar."""
    shares = [1.0]
    for offer in found:
        cost = asked_of(wanted, prices, offer.kind)[0]
        if offer.excess > 0:
            shares.append(cost / (cost + offer.excess))
    return min(shares)
