"""Bounds for each aim: coarse stretches first, then finer ones where it matters, then narrower hats.

Of a bound in whole panels only as much is settled as the question needs: a number of panels is refuted as
soon as its common share lies below one, and stands as soon as the programme reaches it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from panewright.cell.root import Array
from panewright.circuit.network import Network
from panewright.lots.matching.pieces import Pieces, Whole
from panewright.lots.matching.proof.branching import Better, Case, by_cases
from panewright.lots.matching.proof.ceilings import Ceilings, usual_a
from panewright.lots.matching.proof.certificate import Proof
from panewright.lots.matching.proof.counts import Counts, most_earning
from panewright.lots.matching.proof.master import FEW, Wanted, surfaces
from panewright.lots.matching.proof.pricing import Shop, cheapest
from panewright.lots.matching.proof.programme import Mask
from panewright.lots.matching.proof.relaxed import (
    Asking,
    Column,
    Effort,
    Settled,
    every_step,
    kept_asking,
    settled,
    share_asking,
    watts_asking,
)
from panewright.lots.matching.proof.sets import Room
from panewright.lots.matching.proof.settling import most_watts_prices
from panewright.lots.matching.proof.shares import finely_shared
from panewright.lots.matching.proof.windows import Halves
from panewright.lots.matching.vectors import Vectors, in_place, lit

_COARSE, _HUGE = 0.004, 0.012  # width of a stretch, as a share of the current
_WIDER, _BELOW = 1.3, 17  # below, each is wider than the one above it by this; so many
_MANY = 4000  #: pieces from which on stretches are wider
_FILLS = 20  #: ways to fill a string up to which the programme over stretches has a line for each
_SOME = 1200  #: pieces up to which the hats get narrower in the end
_CUTS = 12  #: proofs that refute numbers of panels; 6 more for each step, of many pieces 2
_CLOSELY = 400  #: pieces up to which numbers of panels are looked at closely
_BROAD, _NARROW = (16, 5), (28, 7)  # hats, and ramps over each
_FINER = 4  # parts of a stretch that is looked at again
_REFUTED, _FAR, _FAR_ABOVE = 1 - 1e-7, 0.96, 1.03  #: of a common share: refuted, and far from it


@dataclass(frozen=True, slots=True)
class Prover:
    """A lot and a wiring, with all that the bounds need."""

    pieces: Pieces
    network: Network
    room: Room
    imp_a: Array  #: of every piece
    own_w: Array  #: of every piece by itself
    work: tuple[
        Array, Array
    ]  #: current, and volts of a cell, at which every piece works in a panel of its like
    shop: Shop

    @classmethod
    def of(cls, bench: tuple[Pieces, Network, Room], own: tuple[Array, Array], vectors: Vectors) -> Prover:
        """Make the first table of ceilings."""
        pieces, network, room = bench
        work = in_place(vectors, pieces.size.astype(float), room.length, usual_a(pieces))
        low, high = _stretches(own[1], float(pieces.cells.light_a.max()), pieces.count)
        shop = Shop(Ceilings.of(pieces, network, low, high), room, len(network.strings))
        return cls(pieces, network, room, own[1], own[0], work, shop)

    def finer(self, found: Settled) -> Prover:
        """Stretches in which columns lie that matter are parted."""
        table = self.shop.ceilings
        rows = np.unique(_busy(self.shop, found) % table.low_a.size)
        parted = table.parted((self.pieces, self.network), rows, _FINER)
        return replace(self, shop=replace(self.shop, ceilings=parted))

    def weights(self, narrow: bool) -> Array:
        """Rows of the programme: of single pieces, or summed where there are many, finely or not."""
        if self.pieces.count <= FEW:
            return np.eye(self.pieces.count)
        special = self.room.leaky | self.room.short
        plain = np.flatnonzero(~(special | self.room.shut))
        current, volt = (each[plain] for each in self.work)
        hats = surfaces(current, volt, *(_NARROW if narrow else _BROAD))
        table = np.zeros((len(hats), self.pieces.count))
        table[:, plain] = hats
        return np.concatenate([table, np.eye(self.pieces.count)[special & ~self.room.shut]])

    def proof(self, found: Settled) -> Proof:
        """What the best prices prove."""
        table = self.shop.ceilings
        return Proof(table.low_a, table.high_a, found.prices, found.priced.weights, found.priced.costs)


def _stretches(imp_a: Array, light_a: float, count: int) -> tuple[Array, Array]:
    """Even shares of the current where pieces work, wider and wider ones below, a wide one above."""
    low, high = 0.97 * float(np.quantile(lit(imp_a), 0.02)), 1.04 * float(imp_a.max())
    width = _HUGE if count > _MANY else _COARSE
    even = np.geomspace(low, high, max(2, int(np.log(high / low) / width) + 1))
    below = low * np.exp(-np.cumsum(width * _WIDER ** np.arange(1, _BELOW)))
    edges = np.concatenate([[0.0], below[::-1], even, [1.02 * max(light_a, high)]])
    return edges[:-1], edges[1:]


def _busy(shop: Shop, found: Settled) -> Whole:
    """Rows in which the last columns and the dearest sets work."""
    table = shop.ceilings
    taken = np.array([column.taken for column in found.columns[-400:]]).reshape(-1, shop.room.size.size)
    whole = (
        shop.strings > 1
        and bool(taken.size)
        and float((taken @ shop.room.size).max()) > shop.room.length + 0.5
    )
    mine = taken / shop.strings if whole else taken
    best = (mine @ table.piece_w.T + table.string_w).argmax(axis=1)
    near: list[Whole] = [best]
    for weight in found.priced.weights:
        worth, _ = shop.sets(weight, found.prices)
        near.append(np.argsort(-worth, kind="stable")[:24])
    return np.concatenate(near)


@dataclass(frozen=True, slots=True)
class Deal:
    """The best deal so far: currents of its strings, pieces near each, and how low a bound would do."""

    current_a: Array
    near: Mask
    enough_w: float
    better: Better
    exhausted: Callable[[Shop, Array], bool]  #: whether all sets that could be in a better deal were tried


def most_watts(prover: Prover, strings: int, deal: Deal, start: tuple[Column, ...]) -> Watts | None:
    """A bound on the watts of so many strings; None where every way was tried, or none was found."""
    if prover.pieces.count > _SOME or not 0 < len(prover.room.fills) <= _FILLS:
        return _coarse(prover, strings, start)
    bench, begin = (prover.pieces, prover.network), (deal.current_a, deal.near)
    found = most_watts_prices(bench, prover.shop, strings, begin, deal.enough_w)
    if found is None:
        return _coarse(prover, strings, start)
    enough = max(deal.enough_w, deal.better(found.current_a, found.strings))
    if found.bound > enough and deal.exhausted(found.shop, found.prices):
        return None
    cases = by_cases(found, strings, enough, deal.better)
    return Watts(cases.halves, tuple(_case_proof(case) for case in cases.ends))


def _case_proof(case: Case) -> Proof:
    """What a case's prices prove."""
    found, table = case.found, case.found.shop.ceilings
    ones = np.ones(2 * table.low_a.size)
    worth, _ = found.shop.sets(ones, found.prices)
    costs = tuple(case.windows.worths(table, worth).tolist())
    return Proof(table.low_a, table.high_a, found.prices, (ones,), costs)


@dataclass(frozen=True, slots=True)
class Watts:
    """Proofs of a bound on watts by cases: of every case one."""

    halves: Halves
    proofs: tuple[Proof, ...]


def _coarse(prover: Prover, strings: int, start: tuple[Column, ...]) -> Watts | None:
    """Bounds of large lots, in which pieces share rows."""
    wanted = Wanted(most=strings)
    effort = Effort(12, 1e-4) if prover.pieces.count > _MANY else Effort()
    found = settled(watts_asking(prover.shop, strings), prover.weights(False), wanted, effort, (start, None))
    if found is None or prover.pieces.count > _MANY:
        return None if found is None else Watts(0, (_each(prover.proof(found), strings),))
    proof, prover = prover.proof(found), prover.finer(found)
    columns = tuple(_again(prover.shop, column) for column in found.columns)
    asking = watts_asking(prover.shop, strings)
    again = settled(asking, prover.weights(False), wanted, Effort(), (columns, found.prices))
    proofs = [proof] if again is None else [proof, prover.proof(again)]
    best = min(proofs, key=lambda p: float(p.prices.sum()) + strings * max(p.costs[0], 0.0))
    return Watts(0, (_each(best, strings),))


def _each(proof: Proof, strings: int) -> Proof:
    """What no set exceeds, said of every string."""
    return replace(proof, costs=(max(proof.costs[0], 0.0),) * strings)


def _again(shop: Shop, column: Column) -> Column:
    """A column with its watts by the finer table."""
    watts = float((shop.ceilings.piece_w @ column.taken + shop.ceilings.string_w).max())
    return replace(column, worth=watts)


@dataclass(frozen=True, slots=True)
class Panels:
    """The numbers of panels that could not be refuted, and the proofs that refuted all better ones."""

    counts: Counts
    proofs: tuple[Proof, ...]
    columns: tuple[Column, ...]


def all_reaching(
    prover: Prover, rating_w: float, panels: int, begin: tuple[Array, Mask]
) -> tuple[Proof, ...]:
    """Prices for most watts, which may refute that all panels reach a rating."""
    if prover.pieces.count > _CLOSELY or not 0 < len(prover.room.fills) <= _FILLS:
        return ()
    bench, strings = (prover.pieces, prover.network), panels * len(prover.network.strings)
    enough = panels * rating_w * _REFUTED
    found = most_watts_prices(bench, prover.shop, strings, begin, enough)
    if found is None or found.bound > enough:
        return ()
    table = found.shop.ceilings
    ones = np.ones(2 * table.low_a.size)
    cost = found.shop.cost(rating_w, ones, found.prices)
    return (Proof(table.low_a, table.high_a, found.prices, (ones,), (cost,)),)


def most_panels(
    prover: Prover,
    ratings_w: tuple[float, ...],
    earns: tuple[int, ...],
    panels: int,
    *,
    known: tuple[Proof, ...] = (),
) -> Panels:
    """Numbers of panels that earn most, of those that no prices refute; `known` proofs refute some."""
    proofs = list(known)
    columns: tuple[Column, ...] = _first(prover.shop, ratings_w, prover.own_w)
    prices: Array | None = None
    counts = most_earning(earns, tuple(proof.cut for proof in proofs), panels, ratings_w=ratings_w)
    for _ in range(_CUTS + len(earns) * (6 if prover.pieces.count <= _SOME else 2)):
        if not counts.earns:
            break
        share = tuple(float(n) for n in counts.panels)
        refuted, columns, prices, prover = _refuted(prover, ratings_w, share, (columns, prices))
        if refuted is None:
            break
        proofs.append(refuted)
        counts = most_earning(earns, tuple(proof.cut for proof in proofs), panels, ratings_w=ratings_w)
    return Panels(counts, tuple(proofs), columns)


def _first(shop: Shop, ratings_w: tuple[float, ...], own_w: Array) -> tuple[Column, ...]:
    """Panels to begin with: the cheapest by the pieces' own watts."""
    found = [cheapest(shop, rating, own_w) for rating in ratings_w]
    return tuple(
        Column(t, 0.0, taken)
        for t, each in enumerate(found)
        for taken in each.taken[np.argsort(each.costs, kind="stable")][:80]
        if taken.size and np.isfinite(each.costs).any()
    )


Known = tuple[tuple[Column, ...], Array | None]


def _refuted(
    prover: Prover, ratings_w: tuple[float, ...], share: tuple[float, ...], known: Known
) -> tuple[Proof | None, tuple[Column, ...], Array | None, Prover]:
    """Prices by which so many panels are too many, if there are any."""
    columns, prices = known
    proof, settling, prover = _at_once(prover, ratings_w, share, prices)
    if settling is not None:
        return proof, columns, settling, prover
    effort = Effort(answered=_answered)
    close = prover.pieces.count <= _CLOSELY
    stages = [
        (False, False),
        (True, False),
        *([(False, True)] if close and prover.pieces.count > FEW else []),
    ]
    for finer, narrow in stages:
        asking = share_asking(prover.shop, ratings_w, share)
        found = settled(asking, prover.weights(narrow), Wanted(share=share), effort, (columns, prices))
        if found is None:
            return None, columns, prices, prover
        columns, prices = _fresh(prover.shop, ratings_w, found.columns), found.prices
        if found.priced.bound < _REFUTED:
            told = replace(found, priced=every_step(prover.shop, ratings_w, found.prices))
            return prover.proof(told), columns, prices, prover
        if found.value > (_FAR_ABOVE if close else 1.0):
            break
        if (finer, narrow) == (False, False):
            prover = prover.finer(found)
            columns = _fresh(prover.shop, ratings_w, columns)
    return None, columns, prices, prover


def _at_once(
    prover: Prover, ratings_w: tuple[float, ...], share: tuple[float, ...], prices: Array | None
) -> tuple[Proof | None, Array | None, Prover]:
    """The same from the programme over stretches: a proof, if any; prices, if they settle the question."""
    if prover.pieces.count > _CLOSELY:
        return None, None, prover
    begin, bench = prover.own_w if prices is None else prices, (prover.pieces, prover.network)
    found, shop = finely_shared(bench, prover.shop, (ratings_w, share), begin, _REFUTED)
    prover = replace(prover, shop=shop)
    if found is None or found.bound >= _REFUTED:
        return None, found.prices if found and found.open else None, prover
    told, table = every_step(shop, ratings_w, found.prices), shop.ceilings
    return Proof(table.low_a, table.high_a, found.prices, told.weights, told.costs), found.prices, prover


def _answered(value: float, bound: float) -> bool:
    """Whether it is clear that so many panels can, or cannot, be refuted."""
    return value >= 1 or bound < _FAR or (bound < _REFUTED and bound - value < 0.004)


def _fresh(shop: Shop, ratings_w: tuple[float, ...], columns: tuple[Column, ...]) -> tuple[Column, ...]:
    """Columns that still reach their rating by the table there is now; of very many the last."""
    if shop.strings > 1:
        return columns[-600:]
    taken = np.array([column.taken for column in columns[-600:]])
    if not len(taken):
        return ()
    watts = (taken @ shop.ceilings.piece_w.T + shop.ceilings.string_w).max(axis=1)
    return tuple(
        c for c, w in zip(columns[-600:], watts.tolist(), strict=True) if w >= ratings_w[c.kind] - 1e-6
    )


def best_remainder(prover: Prover, rating_w: float, panels: int) -> tuple[Proof, ...]:
    """Proof of the least worth that so many panels use up."""
    worth = prover.pieces.own_w
    first = cheapest(prover.shop, rating_w, worth)
    start = tuple(
        Column(0, -float(taken @ worth), taken) for taken in first.taken[np.isfinite(first.costs)][:80]
    )
    proofs, prices, columns = [], None, start
    for narrow in (False, True) if prover.pieces.count <= _SOME else (False, False):
        asking: Asking = kept_asking(prover.shop, rating_w, panels, worth)
        found = settled(asking, prover.weights(narrow), Wanted(least=panels), Effort(), (columns, prices))
        if found is None:
            break
        proofs.append((found.priced.bound, prover.proof(found)))
        prover, prices = prover.finer(found), found.prices
        columns = _fresh(prover.shop, (rating_w,), found.columns)
    return (min(proofs, key=lambda each: each[0])[1],) if proofs else ()
