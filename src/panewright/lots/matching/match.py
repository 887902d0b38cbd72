"""A lot matched: which cell goes where, for an aim, with a bound that no other way exceeds.

Few cells: every way is tried. Else plain sorting first, prices and a bound, then deals that are bettered by
exchanges. The best of all is taken, so it is never worse than plain sorting. Nothing hangs on a clock.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from panewright.cell.key_points import KeyPoints
from panewright.cell.root import Array
from panewright.circuit.trials import currents_a, most_power, voltages_v
from panewright.lots.matching.asked import Aim, Asked, BestRemainder, MostMoney, MostReaching, MostWatts
from panewright.lots.matching.bare import bare
from panewright.lots.matching.curves import Curve, curves_of
from panewright.lots.matching.deal import Rules, chosen, exact_w, own_points
from panewright.lots.matching.matched import Matched, Panel, Seat
from panewright.lots.matching.pieces import Pieces, Whole
from panewright.lots.matching.plans import making, small
from panewright.lots.matching.plans.assigning import currents_of, near
from panewright.lots.matching.plans.making import Made, Maker
from panewright.lots.matching.plans.pooled import pooled
from panewright.lots.matching.plans.reaching import reaching
from panewright.lots.matching.plans.scoring import Score, Steps, price
from panewright.lots.matching.plans.sorting import dealt
from panewright.lots.matching.plans.sparing import sparing
from panewright.lots.matching.proof.certificate import Certificate, Proof, reckoned
from panewright.lots.matching.proof.fills import fills_of, most_strings
from panewright.lots.matching.proof.pricing import Shop
from panewright.lots.matching.proof.programme import Mask
from panewright.lots.matching.proof.prove import (
    Deal,
    Prover,
    all_reaching,
    best_remainder,
    most_panels,
    most_watts,
)
from panewright.lots.matching.proof.relaxed import Column
from panewright.lots.matching.proof.sets import Room
from panewright.lots.matching.seats import Seats
from panewright.lots.matching.spares import reserve, whole
from panewright.lots.matching.vectors import Vectors
from panewright.lots.standing.less import without
from panewright.lots.standing.standing import Standing

_ENOUGH, _ALL = 0.05, 2e-7  # of what is gained on sorting, of all: a bound so near is not lowered
_BEGUN, _BOUND, _SEARCHED = 0.3, 0.5, 0.95  # of the work: a good deal, a bound, the best deal
_DEALS, _MANY = 12, 4000  #: random deals; of so large a lot a third


def match(
    lot: Standing, asked: Asked, seed: int = 1, *, far: Callable[[float], None] = making.unheard
) -> Matched:
    """Put a lot's cells into panels; the seed is of the random deals it is compared with.

    `far` is told which share of the work is about done, from 0 to 1. Where too few of the cells left over may
    take any seat, spares are set apart first and the rest is dealt; the bound is that of the whole lot.
    """
    if not asked.spares:
        return _matched(lot, asked, seed, far)
    first = _matched(lot, asked, seed, lambda share: far(share / 2))
    back = reserve(first)
    rest = replace(asked, spares=asked.spares - len(back))
    made = (
        whole(first, _matched(without(lot, back), rest, seed, lambda s: far(0.5 + s / 2))) if back else first
    )
    far(1.0)
    return made


def _matched(lot: Standing, asked: Asked, seed: int, far: Callable[[float], None]) -> Matched:
    maker = replace(bench(lot, asked), far=far)
    plain = maker.made(maker.sorted_deal())
    found = _every_way(maker) if small.few(maker.rules) else None
    made, bound = found if found is not None else _searched(maker, asked, plain)
    maker.far(_SEARCHED)
    chance = _random(maker, seed)
    maker.far(1.0)
    return _told(lot, asked, maker, (making.better(plain, made), plain.score, chance, bound))


def bench(lot: Standing, asked: Asked) -> Maker:
    """Everything that matching a lot needs."""
    pieces, seats = Pieces.of(lot, asked), Seats.of(asked.network)
    own_w, imp_a = own_points(pieces, asked.network)
    rules = Rules.of(pieces, seats, asked.limits.most_leaky)
    most = most_panels_of(rules, len(lot.marks) - asked.spares, asked.spares)
    most = min(most, *([asked.panels] if asked.panels else []), *_asked_panels(asked), most)
    vectors = Vectors.of(pieces, asked.network, imp_a)
    return Maker(rules, asked.network, asked.aim, imp_a, own_w, vectors, most)


def most_panels_of(rules: Rules, cells: int, spares: int = 0) -> int:
    """No more panels than this have cells enough, of so many, and leave spares that fit any seat."""
    seats, open_to = rules.seats, rules.largest >= min(rules.seats.driven)
    fits = rules.anywhere[[members[0] for members in rules.pieces.members]] & (rules.size == 1)
    open_to[np.flatnonzero(fits)[:spares]] = False
    size, leaks = rules.size[open_to], rules.leaks[open_to]
    densest = np.argsort(-size / np.maximum(leaks, 1), kind="stable")
    densest = densest[leaks[densest] > 0]
    before = np.concatenate([[0], np.cumsum(leaks[densest])])
    taken = np.concatenate([[0], np.cumsum(size[densest])])
    for panels in range(_by_cells(rules, min(cells, int(size.sum()))), 0, -1):
        leaky = np.interp(panels * len(seats.substrings) * rules.most_leaky, before, taken)
        if int(size[leaks == 0].sum()) + leaky >= panels * seats.count:
            return panels
    return 0


def _by_cells(rules: Rules, cells: int) -> int:
    """No more panels than so many cells are enough for; soldered strings must go in whole."""
    count, size = max(0, cells) // rules.seats.count, rules.size[rules.largest >= min(rules.seats.driven)]
    sizes = np.unique(rules.size)
    fills = fills_of(size, sizes, rules.seats.strings) if sizes.size > 1 else ()
    if not fills:
        return count
    there = [int((size == each).sum()) for each in sizes]
    return min(count, most_strings(fills, there) // len(rules.seats.strings))


def _asked_panels(asked: Asked) -> list[int]:
    return [asked.aim.panels] if isinstance(asked.aim, BestRemainder) else []


def _every_way(maker: Maker) -> tuple[Made, Certificate] | None:
    """The best of all ways; None where the choice among them takes too much work."""
    ways = small.every_way(maker.rules, maker.network)
    if not ways.sets:
        return None
    chosen, settled = small.best_of(ways, maker.aim, maker.panels)
    if not settled:
        return None
    made = maker.made(ways.strings[chosen])
    place = -1 if isinstance(maker.aim, BestRemainder) else 0
    return made, Certificate(made.score[place], "exhausted", (), (), maker.panels, ())


def _searched(maker: Maker, asked: Asked, plain: Made) -> tuple[Made, Certificate]:
    rules = maker.rules
    if not maker.panels or maker.own_w.max() <= 0:
        return plain, _no_panel(asked.aim)
    room = Room.of(rules.pieces, rules.seats, rules.most_leaky)
    prover = Prover.of((rules.pieces, asked.network, room), (maker.own_w, maker.imp_a), maker.vectors)
    if isinstance(asked.aim, MostWatts):
        return _most_watts(maker, prover, plain)
    return _in_steps(maker, prover, plain)


def _no_panel(aim: Aim) -> Certificate:
    """What cells that fill no panel, or are all dead, come to at most: nothing."""
    kind = {MostWatts: "watts", MostMoney: "money"}.get(type(aim), "panels")
    steps = Steps.of(aim)
    return Certificate(0.0, kind, steps.ratings_w, steps.earns, 0, ())


def _most_watts(maker: Maker, prover: Prover, plain: Made) -> tuple[Made, Certificate]:
    made, strings = making.more_watts(maker, plain), maker.panels * len(maker.network.strings)
    maker.far(_BOUND)
    if not len(made.power_w):
        return made, Certificate(0.0, "watts", (), (), strings, ())
    best = [made]

    def better(current_a: Array, there: Array) -> float:
        best[0] = making.at_currents(maker, best[0], current_a, there)
        return _enough(best[0], plain)

    tried = [False]

    def exhausted(shop: Shop, prices: Array) -> bool:
        found = pooled((maker.rules, maker.network, shop), prices, maker.panels, best[0].score[0])
        tried[0] = found is not None
        if found is not None and len(found):
            best[0] = making.better(best[0], maker.made(found))
        return tried[0]

    deal = Deal(*_near(maker, made), _enough(made, plain), better, exhausted)
    found = most_watts(prover, strings, deal, _columns(prover, made))
    if tried[0]:
        return best[0], Certificate(best[0].score[0], "exhausted", (), (), maker.panels, ())
    proofs, halves = (found.proofs, found.halves) if found else ((), 0)
    blank = Certificate(0.0, "watts", (), (), strings, proofs, halves)
    return making.cooled_down(maker, best[0]), _certified(blank, maker.rules.pieces)


def _near(maker: Maker, made: Made) -> tuple[Array, Mask]:
    """Currents of a deal's strings, and pieces near each."""
    current = currents_of(maker.vectors, made.strings)
    return current, near(maker.rules, made.strings, current)


def _enough(made: Made, plain: Made) -> float:
    """A bound as low as this says all that is worth saying of a deal."""
    return made.score[0] + max(_ENOUGH * (made.score[0] - plain.score[0]), _ALL * made.score[0])


def _in_steps(maker: Maker, prover: Prover, plain: Made) -> tuple[Made, Certificate]:
    steps, pieces = Steps.of(maker.aim), maker.rules.pieces
    if isinstance(maker.aim, BestRemainder):
        made = sparing(maker, plain)
        maker.far(_BOUND)
        if len(made.power_w) == maker.panels:
            proofs = best_remainder(prover, maker.aim.rating_w, maker.panels)
            blank = Certificate(0.0, "remainder", steps.ratings_w, (1,), maker.panels, proofs)
            return made, _certified(blank, pieces)
    strong = making.strongest(maker)
    maker.far(_BEGUN)
    known: tuple[Proof, ...] = ()
    if isinstance(maker.aim, MostReaching) and len(strong.power_w):
        known = all_reaching(prover, maker.aim.rating_w, maker.panels, _near(maker, strong))
    panels = most_panels(prover, steps.ratings_w, steps.earns, maker.panels, known=known)
    maker.far(_BOUND)
    made = reaching(maker, panels, plain, strong.strings)
    kind = "money" if isinstance(maker.aim, MostMoney) else "panels"
    blank = Certificate(0.0, kind, steps.ratings_w, steps.earns, maker.panels, panels.proofs)
    return made, _certified(blank, pieces)


def _certified(blank: Certificate, pieces: Pieces) -> Certificate:
    value = reckoned(blank, pieces) if blank.proofs else _without(blank, pieces)
    return replace(blank, value=value)


def _without(blank: Certificate, pieces: Pieces) -> float:
    """What is plain without any proof."""
    if blank.kind == "watts":
        return float(pieces.own_w.sum())
    if blank.kind == "remainder":
        return float(pieces.own_w.sum())
    return float(max(blank.earns, default=0) * blank.panels)


def _columns(prover: Prover, made: Made) -> tuple[Column, ...]:
    """The deal's strings, and windows of the sorted lot, as columns to begin with."""
    table, count = prover.shop.ceilings, prover.pieces.count
    rows = [string[string >= 0] for panel in made.strings for string in panel]
    order = np.argsort(-prover.imp_a, kind="stable")
    length = len(rows[0]) if rows else 1
    rows += [order[k : k + length] for k in np.unique(np.linspace(0, count - length, 60).astype(int))]
    found = []
    for row in rows:
        taken = np.zeros(count)
        taken[row] = 1.0
        found.append(Column(0, float((table.piece_w @ taken + table.string_w).max()), taken))
    return tuple(found)


def _random(maker: Maker, seed: int) -> Score:
    """Mean score of random deals."""
    dice = np.random.default_rng(seed)
    count = _DEALS if maker.rules.pieces.count <= _MANY else _DEALS // 3
    deals = [
        dealt(maker.rules, dice.permutation(maker.rules.pieces.count).tolist(), maker.panels)
        for _ in range(count)
    ]
    scores = np.array([maker.made(deal).score for deal in deals])
    return tuple(scores.mean(axis=0).tolist())


def _told(
    lot: Standing, asked: Asked, maker: Maker, found: tuple[Made, Score, Score, Certificate]
) -> Matched:
    made, plain, chance, bound = found
    panels = panels_with(lot, asked, made.seats)
    taken = set(made.seats.reshape(-1).tolist())
    left = tuple(mark for k, mark in enumerate(lot.marks) if k not in taken)
    return Matched(panels, left, made.score, plain, chance, bound, lot, asked, maker, made)


def panels_with(lot: Standing, asked: Asked, seats: Whole) -> tuple[Panel, ...]:
    """Panels with these cells of the lot in their seats, by the exact circuit."""
    points, bare_w = _points(asked, lot, seats), exact_w(bare(asked.network), lot.cells, seats)
    curves = curves_of(asked.network, lot.cells, seats, points)
    found = zip(points, bare_w.tolist(), curves, strict=True)
    return tuple(_panel(lot, asked, row, each) for row, each in zip(seats.tolist(), found, strict=True))


def _points(asked: Asked, lot: Standing, seats: Whole) -> list[KeyPoints]:
    """Isc, Voc and greatest power of every panel, by the exact circuit."""
    if not len(seats):
        return []
    trials = chosen(asked.network, lot.cells, seats)
    peaks, none = most_power(trials), np.zeros(1)
    isc, voc = currents_a(trials, none)[:, 0], voltages_v(trials, none)[:, 0]
    table = np.stack([isc, voc, peaks.current_a, peaks.voltage_v], axis=1)
    return [KeyPoints(*row) for row in table.tolist()]


def _panel(lot: Standing, asked: Asked, cells: list[int], found: tuple[KeyPoints, float, Curve]) -> Panel:
    (points, bare_w, curve), seats = found, Seats.of(asked.network)
    places = tuple(Seat(seats.place(k), lot.marks[c]) for k, c in enumerate(cells))
    own_w, told = float(lot.power_w[cells].sum()), price(asked.aim, points.power_w)
    return Panel(places, points, own_w, bare_w, told, curve)
