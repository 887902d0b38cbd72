"""Deals made and bettered for an aim: from sorted ones, by exchanges, settled by the exact circuit."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

import numpy as np

from panewright.cell.root import Array
from panewright.circuit.network import Network
from panewright.lots.matching.asked import Aim, BestRemainder, MostWatts
from panewright.lots.matching.deal import Rules, cells_of, exact_w
from panewright.lots.matching.pieces import Whole
from panewright.lots.matching.plans.assigning import reassigned, regrouped
from panewright.lots.matching.plans.cooled import cooled
from panewright.lots.matching.plans.coupled import coupled
from panewright.lots.matching.plans.portioned import portioned
from panewright.lots.matching.plans.scoring import Score, kept, score
from panewright.lots.matching.plans.search import Goal, Table, bettered
from panewright.lots.matching.plans.sorting import dealt, dealt_evenly, dealt_to_fill
from panewright.lots.matching.vectors import Vectors

_ROUNDS = 12
_MANY = 4000  #: pieces from which on exchanges go round once only
_COUPLED, _AT_ONCE = 600, 40  # pieces up to which two exchanges are made at once; so many of them
_SHAKES, _PAIRS, _FEW = 24, 3, 150  # of so few pieces
_WARMTHS = (1e-4, 4e-5, 2e-5)  # of strings side by side: what an exchange may lose, of a string's watts
_ASSIGNED = 1600  #: pieces up to which all are dealt anew at once
_SHIFTS = (0.5, 0.2, 0.8)  # of a string


@dataclass(frozen=True, slots=True)
class Made:
    """Panels that are made, by piece and by seat, their exact watts, and how good that is."""

    strings: Whole
    seats: Whole
    power_w: Array
    score: Score


def unheard(_share: float) -> None:
    """Nobody asks how far it is."""


@dataclass(frozen=True, slots=True)
class Maker:
    """The bench: rules, wiring, aim and vectors; how pieces work by themselves."""

    rules: Rules
    network: Network
    aim: Aim
    imp_a: Array
    own_w: Array
    vectors: Vectors
    panels: int  #: no more than this many
    far: Callable[[float], None] = unheard  #: is told which share of the work is done

    def made(self, strings: Whole) -> Made:
        """A deal reckoned exactly, and what of it is made for the aim."""
        seats = cells_of(self.rules, strings)
        power = exact_w(self.network, self.rules.pieces.cells, seats)
        worth = self.rules.pieces.power_w
        stay = kept(self.aim, power, worth[seats].sum(axis=1))
        stay = stay[: self.panels] if not isinstance(self.aim, MostWatts) else stay
        left = float(worth.sum() - worth[seats[stay]].sum())
        return Made(strings[stay], seats[stay], power[stay], score(self.aim, power[stay], left))

    def by_imp(self, pieces: Whole) -> Whole:
        """Pieces in falling order of their own Imp."""
        return pieces[np.argsort(-self.imp_a[pieces], kind="stable")]

    def sorted_deal(self) -> Whole:
        """Plain sorting."""
        return dealt(self.rules, self.by_imp(np.arange(self.rules.pieces.count)).tolist(), self.panels)

    def starts(self, panels: int) -> Iterator[Whole]:
        """Deals to begin with, of so many panels."""
        cells, size = panels * self.rules.seats.count, self.rules.size
        every = np.arange(self.rules.pieces.count)
        plain = dealt(self.rules, self.by_imp(every).tolist(), panels)
        if len(plain) < panels:
            yield dealt_evenly(self.rules, self.by_imp(every).tolist(), panels)
            yield dealt_to_fill(self.rules, self.by_imp(every).tolist(), panels)
        yield plain
        if plain.shape[1] > 1 and len(plain) > 1:
            yield folded(plain)
        per_cell = self.rules.pieces.own_w / size
        for order in self._orders(per_cell, panels):
            enough = np.cumsum(size[order]) <= cells + int(size.max()) - 1
            first, rest = order[enough], order[~enough]
            yield dealt(self.rules, [*self.by_imp(first).tolist(), *rest.tolist()], panels)

    def _orders(self, per_cell: Array, panels: int) -> Iterator[Whole]:
        """Which pieces are taken first: the strongest; or, where little shall be used up, such as just do."""
        strongest = np.argsort(-per_cell, kind="stable")
        yield strongest
        if isinstance(self.aim, BestRemainder):
            for share in (1.06, 1.04, 1.02):
                goal = share * self.aim.rating_w / self.rules.seats.count
                mean = np.cumsum(per_cell[strongest]) / np.arange(1, strongest.size + 1)
                count = min(strongest.size, panels * self.rules.seats.count)
                skip = int(np.searchsorted(-mean, -goal))
                first = max(0, min(strongest.size - count, skip - count // 2))
                yield np.concatenate([strongest[first:], strongest[:first][::-1]])

    def exchanged(self, strings: Whole, goal: Goal) -> Whole:
        """A deal bettered by exchanges; of few pieces shaken up a few times, and bettered again."""
        table, worth = self._bettered(strings, goal)
        for turn in range(_SHAKES if self.rules.pieces.count <= _FEW else 0):
            if not worth[0] < worth[1]:
                break
            again, other = self._bettered(shaken(table.strings, self.rules.kinds, turn), goal)
            if other[0] > worth[0] + 1e-9:
                table, worth = again, other
        return table.strings

    def bettered(self, strings: Whole, goal: Goal) -> Whole:
        """A deal bettered by exchanges, and no more: shaken deals of most watts come back to the same."""
        return self._bettered(strings, goal)[0].strings

    def coupled(self, strings: Whole, goal: Goal) -> Whole:
        """A deal bettered by two exchanges at once, then by single ones, as long as that pays."""
        if self.rules.pieces.count > _COUPLED or not len(strings):
            return strings
        table = Table(self.vectors, strings, self.rules.kinds, self.rules.allowed)
        for _ in range(_ROUNDS):
            if not coupled(table, goal, self._sizes(), _AT_ONCE):
                break
            bettered(table, goal, self._sizes(), _ROUNDS)
        return table.strings

    def _sizes(self) -> Whole:
        """Sizes of pieces that may be exchanged, nothing for those that may sit nowhere."""
        barred = self.rules.largest < min(self.rules.seats.driven)
        return np.append(np.where(barred, 0, self.rules.size), 0)

    def _bettered(self, strings: Whole, goal: Goal) -> tuple[Table, tuple[float, float]]:
        """Exchanges until none pays; what the deal is worth then, and what it could be at most."""
        table = Table(self.vectors, strings, self.rules.kinds, self.rules.allowed)
        bettered(table, goal, self._sizes(), 1 if self.rules.pieces.count > _MANY else _ROUNDS)
        panels = np.arange(len(strings))
        worth = goal.panel(panels, table.power).sum() + goal.left[table.group < 0].sum()
        most = goal.panel(panels, np.full(len(strings), 1e9)).sum() + goal.left.sum()
        return table, (float(worth), float(most))


def shaken(strings: Whole, kinds: Whole, seed: int) -> Whole:
    """Three pairs of pieces of one kind, drawn by chance, change places."""
    dice, flat = np.random.default_rng(seed), strings.reshape(-1).copy()
    for _ in range(_PAIRS):
        one = int(dice.choice(np.flatnonzero(flat >= 0)))
        alike = np.flatnonzero((flat >= 0) & (kinds[flat] == kinds[flat[one]]))
        other = int(dice.choice(alike))
        flat[[one, other]] = flat[[other, one]]
    return flat.reshape(strings.shape)


def folded(strings: Whole) -> Whole:
    """Strong strings beside weak ones: the first with the last, so that panels are even."""
    panels, count, length = strings.shape
    rows = strings.reshape(-1, length)
    back = np.arange(panels * count).reshape(count, panels)
    back[1::2] = back[1::2, ::-1]
    return np.asarray(rows[back.T])


def better(one: Made, other: Made) -> Made:
    """The better of two; the first where they are equal."""
    return other if other.score > one.score else one


def more_watts(maker: Maker, plain: Made) -> Made:
    """Most watts: every start dealt anew at its currents, then exchanges of all with all and what is left."""
    best = plain
    for start in maker.starts(maker.panels):
        if len(start) == maker.panels:
            best = better(best, _more_watts(maker, start, None))
    every = maker.by_imp(np.arange(maker.rules.pieces.count))
    for start in portioned(maker.rules, maker.vectors, every, maker.own_w, maker.panels):
        best = better(best, _more_watts(maker, start, None))
    return best


def _more_watts(maker: Maker, start: Whole, currents: Array | None) -> Made:
    goal = Goal(lambda _places, watts: watts, np.zeros(maker.rules.pieces.count + 1))
    if maker.rules.pieces.count > _ASSIGNED:
        return maker.made(maker.bettered(start, goal))
    dealt = maker.bettered(reassigned(maker.vectors, maker.rules, start, currents), goal)
    again = regrouped(maker.vectors, dealt)
    made = maker.made(dealt)
    return made if again is dealt else better(made, maker.made(maker.bettered(again, goal)))


def at_currents(maker: Maker, best: Made, current_a: Array, strings: Array) -> Made:
    """The best of `best` and of deals begun with the currents at which a bound has its strings, in parts."""
    count = best.strings.shape[0] * best.strings.shape[1]
    if not current_a.size or maker.rules.pieces.count > _ASSIGNED:
        return best
    order = np.argsort(-current_a, kind="stable")
    ends = np.cumsum(strings[order])
    start = best.strings
    for shift in _SHIFTS:
        place = np.searchsorted(ends, np.arange(count) + shift).clip(max=order.size - 1)
        best = better(best, _more_watts(maker, start, current_a[order[place]]))
    return best


def cooled_down(maker: Maker, best: Made) -> Made:
    """Most watts of strings side by side: exchanged by chance, cooler and cooler, a few times over.

    Their voltages hinder single exchanges, so that a deal may stand where others near by give more. One
    string by itself comes back to the same.
    """
    if len(maker.network.strings) == 1 or maker.rules.pieces.count > _COUPLED or not len(best.strings):
        return best
    for warmth in _WARMTHS:
        best = better(best, maker.made(cooled(maker.vectors, maker.rules, best.strings, warmth)))
    goal = Goal(lambda _places, watts: watts, np.zeros(maker.rules.pieces.count + 1))
    return better(best, maker.made(maker.bettered(regrouped(maker.vectors, best.strings), goal)))


def strongest(maker: Maker) -> Made:
    """The deal of most watts, whatever the aim is; its strongest panels first."""
    bench = replace(maker, aim=MostWatts())
    made = more_watts(bench, bench.made(bench.sorted_deal()))
    order = np.argsort(-made.power_w, kind="stable")
    return replace(made, strings=made.strings[order], seats=made.seats[order], power_w=made.power_w[order])
