"""Few pieces a panel: every set that a deal better than the best known may hold, and the best choice of them.

Prices say how much a deal loses at least by holding a set. Sets that lose more than the bound lies above the
best deal are in no better one. Those that are left are reckoned exactly in every arrangement, and the best
that share no piece are chosen by an integer programme. So nothing better is left anywhere.
"""

from __future__ import annotations

from itertools import chain, combinations
from math import comb

import numpy as np

from panewright.cell.root import Array
from panewright.circuit.network import Network
from panewright.lots.matching.asked import MostWatts
from panewright.lots.matching.deal import Rules
from panewright.lots.matching.pieces import Whole
from panewright.lots.matching.plans.small import best_of, reckoned_ways, ways_among
from panewright.lots.matching.proof.pricing import Shop

SETS, _POOL = 250_000, 8_000
_WAYS = 1_000_000  # arrangements of all of them: some thirty cells under two diodes have more each
_AT_ONCE = 8_000


def pooled(bench: tuple[Rules, Network, Shop], prices: Array, panels: int, known_w: float) -> Whole | None:
    """The best deal if it is better than the known one, else an empty one; None where sets are too many."""
    rules, network, shop = bench
    sets = _sets(shop)
    if sets is None:
        return None
    worth, _ = shop.sets(np.ones(2 * shop.ceilings.low_a.size), prices)
    most = max(0.0, float(worth.max()))
    gap = float(prices.sum()) + panels * most - known_w
    kept = sets[most - _worth(shop, prices, sets) <= gap]
    if len(kept) > _POOL or len(kept) * _arrangements(rules, sets.shape[1]) > _WAYS:
        return None
    held = [way for row in kept.tolist() for way in ways_among(rules, (), row)]
    ways = reckoned_ways(rules, network, held)
    chosen, settled = best_of(ways, MostWatts(), panels) if ways.sets else ([], True)
    return ways.strings[chosen] if settled else None


def _arrangements(rules: Rules, pieces: int) -> int:
    """In how many ways so many pieces may be spread over the substrings, at most."""
    ways, least = 1, int(rules.size.min())
    for room in rules.seats.substrings:
        count = min(pieces, room // least)
        ways, pieces = ways * comb(pieces, count), pieces - count
    return ways


def _sets(shop: Shop) -> Whole | None:
    """All sets of pieces that fill a string; None where they are too many, or of several sizes."""
    fills, room = shop.room.fills, shop.room
    if shop.strings > 1 or len(fills) != 1 or sum(count > 0 for count in fills[0]) != 1:
        return None
    size = int(room.sizes[int(np.argmax(fills[0]))])
    pieces, count = np.flatnonzero((room.size == size) & ~room.shut), max(fills[0])
    if comb(pieces.size, count) > SETS:
        return None
    flat = np.fromiter(chain.from_iterable(combinations(pieces.tolist(), count)), dtype=np.int64)
    return flat.reshape(-1, count)


def _past(shop: Shop, some: Whole, each_w: Array) -> Array | float:
    """Most watts of sets of which a diode carries the current past a substring, row by row. [W]"""
    if not shop.relieved or not (each_w < 0).any():
        return -np.inf
    size = int(shop.room.size[some[0, 0]])
    counted = max(relieved.counts.length // size for relieved in shop.relieved)
    return np.asarray(np.sort(np.maximum(each_w, 0.0), axis=2)[:, :, -counted:].sum(axis=2))


def _worth(shop: Shop, prices: Array, sets: Whole) -> Array:
    """Watts of sets less their prices, no less than they have."""
    table = shop.ceilings
    found = np.empty(len(sets))
    for first in range(0, len(sets), _AT_ONCE):
        some = sets[first : first + _AT_ONCE]
        each = table.piece_w[:, some]
        watts = np.maximum(each.sum(axis=2), _past(shop, some, each)) + table.string_w[:, None]
        found[first : first + _AT_ONCE] = watts.max(axis=0) - prices[some].sum(axis=1)
    return found
