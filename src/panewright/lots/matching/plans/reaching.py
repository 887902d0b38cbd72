"""Panels that reach what is asked of each: as many or as dear as a bound leaves open, the best first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from panewright.cell.root import Array
from panewright.lots.matching.deal import cells_of, exact_w
from panewright.lots.matching.pieces import Whole
from panewright.lots.matching.plans.assigning import regrouped
from panewright.lots.matching.plans.lifting import lifted
from panewright.lots.matching.plans.making import Made, Maker, better, folded
from panewright.lots.matching.plans.needs import needs
from panewright.lots.matching.plans.scoring import Steps
from panewright.lots.matching.plans.search import Goal
from panewright.lots.matching.proof.counts import most_earning
from panewright.lots.matching.proof.prove import Panels

MARGIN = 2e-6  #: what vectors may be off
_MARGINS, _AMPLE = (
    (MARGIN, 8 * MARGIN),
    (5e-4, 2e-3),
)  # asked above; of few pieces more, which leads elsewhere
_NEARLY = 0.01  # of a panel: where more is lacking no more is tried
_LEVELS = 60  # sums that are looked at
_FAILS = 10  # ways that are tried without success
_CLOSELY, _FAILS_OF_MANY = 400, 3  # of more pieces than this so many ways
_LIFTED = 1600  # pieces up to which a linear programme deals them, and all starts are tried
_CONCEDED = 12  # steps that are given up, one after the other
_FROM, _TO = 0.5, 0.95  # of the whole work
_SPARE = 1e-3  # a watt that is not asked for, of one that is


def reaching(maker: Maker, bound: Panels, plain: Made, strong: Whole) -> Made:
    """Most panels or money: what is not refuted is tried, the best first.

    `strong`: a deal to begin with besides, its strongest panels first.
    """
    steps, best, earned = Steps.of(maker.aim), plain, bound.counts.earns
    cuts, fails = tuple(proof.cut for proof in bound.proofs), 0
    gives, most = _gives(maker, strong), _fails(maker)
    for _ in range(_LEVELS):
        if earned <= (best.score[0] if best.score else 0) or fails >= most:
            break
        for need in needs(steps, cuts, gives, earned):
            best = _tried(maker, need, earned, (best, strong))
            fails += 1
            maker.far(_FROM + (_TO - _FROM) * min(1.0, fails / most))
            if best.score[0] >= earned or fails >= most or not _few(maker):
                break
        below = earned if _few(maker) else min(earned, _between(maker, earned, int(best.score[0])))
        earned = most_earning(steps.earns, cuts, maker.panels, below=below).earns
    return best


def _between(maker: Maker, earned: int, known: int) -> int:
    """What is tried next: half way to what is known; of very many pieces, tried once, only a quarter."""
    return earned + (known - earned) // (2 if maker.rules.pieces.count <= _LIFTED else 4) + 1


def _fails(maker: Maker) -> int:
    """Ways that are tried in vain: fewer, the more pieces there are."""
    if _few(maker):
        return _FAILS
    return _FAILS_OF_MANY if maker.rules.pieces.count <= _LIFTED else 1


def _few(maker: Maker) -> bool:
    """Whether pieces are so few that every sum is tried; of many the sums between are halved."""
    return maker.rules.pieces.count <= _CLOSELY


def _gives(maker: Maker, strong: Whole) -> Array:
    """About the most that the strongest panels can give together, for one, two and more of them. [W]"""
    power = exact_w(maker.network, maker.rules.pieces.cells, cells_of(maker.rules, strong))
    if not power.size:
        return power
    seats = cells_of(maker.rules, strong)
    own = maker.rules.pieces.power_w
    apart = own[seats].sum(axis=1)
    share = float(
        np.divide(power, apart, out=np.zeros_like(power), where=apart > 0).max()
    )  # cells may be dead
    most = np.cumsum(np.sort(own)[::-1])[np.arange(1, power.size + 1) * seats.shape[1] - 1]
    together = share * most
    together[-1] = min(together[-1], float(power.sum()))
    return np.minimum.accumulate(together[::-1])[::-1]


def _starts(maker: Maker, need: Array, strong: Whole) -> Iterator[Whole]:
    """Deals to begin with, of so many panels as something is asked of."""
    goal = short(need)

    def worth(places: Whole, watts: Array) -> Array:
        return np.asarray(goal(places, watts) + _SPARE * watts)

    begun = [strong[: need.size], *maker.starts(need.size)]
    for start in begun if maker.rules.pieces.count <= _LIFTED else begun[:1]:
        if len(start) == need.size:
            if start.shape[1] > 1:
                yield regrouped(maker.vectors, start, worth)
                yield regrouped(maker.vectors, folded(start), worth)
            else:
                yield start


def _tried(maker: Maker, need: Array, earned: int, known: tuple[Made, Whole]) -> Made:
    """Panels of which so much is asked, from one start after the other; then a little less of the nearest."""
    best, strong = known
    nearest: Lifted | None = None
    for start in _begun(maker, need, strong):
        tried = raised(maker, start, need, earned)
        best = better(best, tried.made)
        if best.score[0] >= earned:
            return best
        nearest = tried if nearest is None or tried.short_w < nearest.short_w else nearest
    return best if nearest is None else conceded(maker, nearest, need, best)


def conceded(maker: Maker, nearest: Lifted, need: Array, best: Made) -> Made:
    """The panel furthest short is asked a step less, again and again, while more may be earned so."""
    steps, now, asked = Steps.of(maker.aim), nearest, -np.sort(-need)
    ratings = np.array([0.0, *steps.ratings_w])
    for _ in range(_CONCEDED if len(steps.earns) > 1 else 0):
        worst = int((asked - np.sort(now.power_w)[::-1]).argmax())
        lower = np.searchsorted(ratings, asked[worst] * (1 - MARGIN)) - 1
        asked[worst] = ratings[lower]
        asked = -np.sort(-asked)
        earned = int(steps.earned(asked).sum())
        if earned <= best.score[0]:
            break
        now = raised(maker, now.strings, asked, earned)
        best = better(best, now.made)
    return best


def _begun(maker: Maker, need: Array, strong: Whole) -> Iterator[Whole]:
    """Deals to lift: starts dealt anew for what is asked, and as they are; none twice."""
    seen = set[frozenset[frozenset[frozenset[int]]]]()
    for start in _starts(maker, need * (1 + MARGIN), strong):
        if maker.rules.pieces.count > _LIFTED:
            yield start
            continue
        for first in (lifted(maker.vectors, maker.rules, start, need * (1 + MARGIN)), start):
            key = frozenset(frozenset(frozenset(row) for row in panel) for panel in first.tolist())
            if key not in seen:
                seen.add(key)
                yield first


@dataclass(frozen=True, slots=True)
class Lifted:
    """A deal that was lifted: what is made of it, all its panels, and watts that they lack together."""

    made: Made
    strings: Whole
    power_w: Array
    short_w: float


def raised(maker: Maker, start: Whole, asked: Array, earned: int) -> Lifted:
    """Panels lifted to what is asked of each, the strongest asked most."""
    none = np.zeros(maker.rules.pieces.count + 1)
    strings, best = start, None
    power = _exact(maker, strings)
    for margin in (*_MARGINS, *(_AMPLE if _few(maker) else ())):
        need = np.empty(asked.size)
        need[np.argsort(-power, kind="stable")] = -np.sort(-asked) * (1 + margin)
        strings = maker.coupled(maker.exchanged(strings, Goal(short(need), none)), Goal(short(need), none))
        power = _exact(maker, strings)
        lack = float(np.maximum(0.0, -np.sort(-asked) - np.sort(power)[::-1]).sum())
        found = Lifted(maker.made(strings), strings, power, lack)
        best = found if best is None or found.made.score > best.made.score else best
        if best.made.score[0] >= earned or (margin == _MARGINS[-1] and lack > _NEARLY * asked.max()):
            break
    if best is None:
        raise RuntimeError("no deal was tried")
    return best


def _exact(maker: Maker, strings: Whole) -> Array:
    return exact_w(maker.network, maker.rules.pieces.cells, cells_of(maker.rules, strings))


def short(need: Array, weight: float = 1.0):  # type: ignore[no-untyped-def]
    """Watts that panels are short of what is asked."""

    def worth(places: Whole, watts: Array) -> Array:
        return np.asarray(-weight * np.maximum(0.0, need[places] - watts))

    return worth
