"""Prices of pieces by column generation: the linear programme asks for panels until none would pay.

Every price vector that is met on the way gives a bound that holds; the best is kept. Where the programme
jumps about, prices between the best and the last are asked with (Wentges 1997, recalled).

[W] P. Wentges, Weighted Dantzig-Wolfe decomposition for linear mixed-integer programming,
    International Transactions in Operational Research 4 (1997) 151 (recalled).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from panewright.cell.root import Array
from panewright.lots.matching.proof.master import Master, Prices, Wanted
from panewright.lots.matching.proof.pricing import Cheapest, Shop, cheapest

_BLEND = 0.6  # of the best prices, the rest of the last ones
_EACH = 30  # columns added at a time, of each kind


@dataclass(frozen=True, slots=True)
class Column:
    """A panel, or a string of it, in parts."""

    kind: int
    worth: float
    taken: Array


@dataclass(frozen=True, slots=True)
class Priced:
    """What one price vector says: a bound, the weights that prove it, and columns that might pay."""

    bound: float
    weights: tuple[Array, ...]
    costs: tuple[float, ...]
    columns: tuple[Column, ...]


Asking = Callable[[Array], Priced]


@dataclass(frozen=True, slots=True)
class Settled:
    """The best prices met, what they prove, the programme's own value, and its columns."""

    prices: Array
    priced: Priced
    value: float
    columns: tuple[Column, ...]


def watts_asking(shop: Shop, strings: int) -> Asking:
    """Most watts: columns are strings, worth their watts."""
    ones = np.ones(2 * shop.ceilings.low_a.size)

    def ask(prices: Array) -> Priced:
        worth, best = shop.sets(ones, prices)
        bound = float(prices.sum()) + strings * max(0.0, float(worth.max()))
        watts = worth + best.taken @ prices
        columns = tuple(Column(0, float(watts[k]), best.taken[k]) for k in _of_each(worth))
        return Priced(bound, (ones,), (float(worth.max()),), columns)

    return ask


def share_asking(shop: Shop, ratings_w: tuple[float, ...], share: tuple[float, ...]) -> Asking:
    """A common share of numbers of panels that reach ratings: columns are panels."""

    def ask(prices: Array) -> Priced:
        found = {t: cheapest(shop, ratings_w[t], prices) for t, wanted in enumerate(share) if wanted}
        asked = sum(share[t] * each.cost for t, each in found.items())
        bound = float(prices.sum()) / asked if asked > 0 else np.inf
        columns = tuple(Column(t, 0.0, taken) for t, each in found.items() for taken in _few(each))
        return Priced(bound, (), (), columns)

    return ask


def every_step(shop: Shop, ratings_w: tuple[float, ...], prices: Array) -> Priced:
    """What prices say to a panel of every rating."""
    found = [cheapest(shop, rating, prices) for rating in ratings_w]
    return Priced(0.0, tuple(each.weight for each in found), tuple(each.cost for each in found), ())


def kept_asking(shop: Shop, rating_w: float, panels: int, worth: Array) -> Asking:
    """Least worth used up by so many panels: columns are panels, worth less by what they use."""

    def ask(prices: Array) -> Priced:
        found = cheapest(shop, rating_w, prices + worth)
        bound = float(prices.sum()) - panels * found.cost
        columns = tuple(Column(0, -float(taken @ worth), taken) for taken in _few(found))
        return Priced(bound, (found.weight,), (found.cost,), columns)

    return ask


def _few(found: Cheapest) -> Array:
    """The cheapest panels, one of each stretch."""
    reached = np.flatnonzero(np.isfinite(found.costs))
    order = reached[np.argsort(found.costs[reached], kind="stable")]
    return found.taken[order[:_EACH]]


def _of_each(worth: Array) -> list[int]:
    """Of each stretch the better row, the best first."""
    half = worth.size // 2
    better = np.where(worth[:half] >= worth[half:], np.arange(half), np.arange(half) + half)
    order: list[int] = better[np.argsort(-worth[better], kind="stable")].tolist()
    return order


@dataclass(frozen=True, slots=True)
class Effort:
    """When to stop: so many rounds, so near, or as soon as the question is answered."""

    rounds: int = 80
    near: float = 1e-5  #: relative
    answered: Callable[[float, float], bool] | None = None  #: by the value and the bound so far


def settled(
    asking: Asking,
    weights: Array,
    wanted: Wanted,
    effort: Effort,
    start: tuple[tuple[Column, ...], Array | None],
) -> Settled | None:
    """Prices that prove a good bound; `start` holds columns known and prices to begin with."""
    master, columns, known = Master(weights, wanted), list(start[0]), start[1]
    for column in columns:
        master.add(column.kind, column.worth, column.taken)
    best = None if known is None else (asking(known), known)
    last = master.solved()
    value = -np.inf if last is None else last.value
    for _ in range(effort.rounds):
        if last is None:
            break
        value = last.value
        asked, pays = _asked(asking, last, best)
        if best is None or asked[0].bound < best[0].bound:
            best = asked
        if not pays or _enough(effort, value, best[0].bound):
            break
        for column in pays:
            master.add(column.kind, column.worth, column.taken)
        columns += pays
        last = master.solved()
    return None if best is None else Settled(best[1], best[0], value, tuple(columns))


def _enough(effort: Effort, value: float, bound: float) -> bool:
    near = bound - value <= effort.near * abs(value)
    return near or (effort.answered is not None and effort.answered(value, bound))


def _asked(
    asking: Asking, last: Prices, best: tuple[Priced, Array] | None
) -> tuple[tuple[Priced, Array], list[Column]]:
    """Ask with prices between the best and the last; where no column of theirs pays, with the last."""
    middle = last.pieces if best is None else _BLEND * best[1] + (1 - _BLEND) * last.pieces
    priced = asking(middle)
    pays = _paying(priced, last)
    if pays or best is None:
        return (priced, middle), pays
    other = asking(last.pieces)
    better = (priced, middle) if priced.bound <= other.bound else (other, last.pieces)
    return better, _paying(other, last)


def _paying(priced: Priced, last: Prices) -> list[Column]:
    """Columns that would pay at the last prices, some of each kind."""
    found: list[Column] = []
    kinds = last.kinds.size
    for kind in range(kinds):
        gains = [
            (each.worth - float(each.taken @ last.pieces) + float(last.kinds[kind]), k)
            for k, each in enumerate(priced.columns)
            if each.kind == kind
        ]
        paying = sorted(
            (each for each in gains if each[0] > 1e-8 * (1 + abs(last.value))), key=lambda g: (-g[0], g[1])
        )
        found += [priced.columns[k] for _, k in paying[:_EACH]]
    return found
