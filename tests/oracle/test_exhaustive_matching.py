"""Small lots against every way there is, one by one on the exact circuit: met exactly, for every aim."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from functools import cache
from itertools import combinations

import pytest
from campaigns import matching

from panewright.cell.diode import Diode
from panewright.cell.diodes import Diodes
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Network
from panewright.lots.matching.asked import (
    Asked,
    BestRemainder,
    Limits,
    MostMoney,
    MostReaching,
    MostWatts,
    Reverse,
    Step,
)
from panewright.lots.matching.match import match
from panewright.lots.standing.standing import Standing

Groups = tuple[tuple[int, ...], ...]


def groups(cells: tuple[int, ...], sizes: tuple[int, ...]) -> Iterator[Groups]:
    """Every way to deal these cells to substrings of these sizes."""
    if not sizes:
        yield ()
        return
    for first in combinations(cells, sizes[0]):
        rest = tuple(c for c in cells if c not in first)
        for others in groups(rest, sizes[1:]):
            yield (first, *others)


class Lot:
    """A lot with everything tried."""

    def __init__(self, lot: Standing, asked: Asked) -> None:
        self.lot, self.asked = lot, asked
        parts = [part for string in asked.network.strings for part in string.substrings]
        self.sizes = tuple(len(part.cells) for part in parts)
        one_in_each = len(asked.network.strings) in (1, len(parts))
        self.alike = one_in_each and len({*parts}) == len({*asked.network.strings}) == 1
        self.diodes = [
            Diode(*(float(getattr(lot.cells, name)[k]) for name in Diodes.__slots__))
            for k in range(len(lot.marks))
        ]
        self.joined = [frozenset(lot.marks.index(m) for m in string) for string in asked.soldered]

    @cache  # noqa: B019 - a lot lives as long as its test
    def watts(self, cells: tuple[int, ...]) -> float:
        """The best panel of these cells, 0 where the limits allow none."""
        chosen = set(cells)
        if any(string & chosen and not string <= chosen for string in self.joined):
            return 0.0
        ways = (way for way in groups(cells, self.sizes) if self._first(way) and self._allowed(way))
        return max(map(self._watts, ways), default=0.0)

    def _first(self, way: Groups) -> bool:
        """Like parts in a row or side by side give the same in any order: one of the orders is tried."""
        return not self.alike or list(way) == sorted(way)

    def _allowed(self, way: Groups) -> bool:
        limits = self.asked.limits
        for group in way:
            if sum(self.diodes[c].shunt_ohm < limits.leaky_ohm for c in group) > limits.most_leaky:
                return False
            for c in group:
                reverse = limits.reverse
                if (
                    reverse
                    and (len(group) - 1) * reverse.cold_voc_v + reverse.drop_v > -self.diodes[c].breakdown_v
                ):
                    return False
        return all(
            any(string <= set(group) for group in way) for string in self.joined if string & set(sum(way, ()))
        )

    def _watts(self, way: Groups) -> float:
        at, strings = 0, []
        for string in self.asked.network.strings:
            parts = []
            for part in string.substrings:
                parts.append(replace(part, cells=tuple(self.diodes[c] for c in way[at])))
                at += 1
            strings.append(replace(string, substrings=tuple(parts)))
        return key_points(Network(tuple(strings), self.asked.network.lead_ohm)).power_w

    def deals(self, left: tuple[int, ...], panels: int) -> Iterator[tuple[tuple[int, ...], ...]]:
        """Every set of panels without a cell in two of them."""
        yield ()
        if not panels or len(left) < sum(self.sizes):
            return
        for k in range(len(left) - sum(self.sizes) + 1):
            for others in combinations(left[k + 1 :], sum(self.sizes) - 1):
                cells = (left[k], *others)
                if self.watts(cells) > 0:
                    rest = tuple(c for c in left[k + 1 :] if c not in others)
                    for more in self.deals(rest, panels - 1):
                        yield (cells, *more)

    def best(self) -> tuple[float, ...]:
        """The best score of all deals."""
        every = tuple(range(len(self.lot.marks)))
        most = len(every) // sum(self.sizes)
        return max(self.score(deal) for deal in self.deals(every, most))

    def score(self, deal: tuple[tuple[int, ...], ...]) -> tuple[float, ...]:
        aim, watts = self.asked.aim, [self.watts(cells) for cells in deal]
        if isinstance(aim, MostWatts):
            return (sum(watts),)
        if isinstance(aim, MostReaching):
            return (float(sum(w >= aim.rating_w for w in watts)),)
        if isinstance(aim, MostMoney):
            return (
                float(sum(max([0, *(s.price for s in aim.steps if w >= s.from_w)]) for w in watts)) * 100,
            )
        used = sum(self.lot.power_w[c] for cells in deal for c in cells)
        whole = len(deal) <= aim.panels and all(w >= aim.rating_w for w in watts)
        return (float(len(deal)), float(self.lot.power_w.sum() - used)) if whole else (-1.0, 0.0)


KINDS = {
    "in a row": (8, matching.wiring(3, 1, 1), Limits(), 0),
    "two substrings": (8, matching.wiring(4, 1, 2), Limits(), 0),
    "side by side": (8, matching.wiring(4, 2, 1), Limits(), 0),
    "cells side by side": (7, matching.wiring(3, 3, 1), Limits(), 0),
    "leaky and weak": (8, matching.wiring(4, 1, 2), Limits(6.0, 1, Reverse(6.6)), 0),
    "soldered in twos": (10, matching.wiring(4, 1, 2), Limits(), 2),
    "soldered twos side by side": (10, matching.wiring(4, 2, 1), Limits(), 2),
}


def aims(lot: Standing, count: int) -> tuple[object, ...]:
    mean = float(lot.power_w.mean()) * count
    steps = tuple(Step(mean * share, Decimal(price)) for share, price in ((0.9, 10), (0.96, 17), (1.0, 25)))
    return MostWatts(), MostReaching(0.975 * mean), MostMoney(steps), BestRemainder(1, 0.97 * mean)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("seed", [1, 2])
def test_the_best_of_all_ways_is_met_exactly(kind, seed):
    count, network, limits, length = KINDS[kind]
    drawn = matching.Drawn(imp=0.05, vmp=0.02, leaky=0.3 if limits.leaky_ohm else 0.0, weak=0.2)
    lot = matching.standing(matching.cells(count, seed, drawn))
    asked = Asked(network, MostWatts(), limits, matching.soldered(lot, length, seed) if length else ())
    tried = Lot(lot, asked)
    for aim in aims(lot, sum(tried.sizes)):
        tried.asked = replace(asked, aim=aim)
        matched = match(lot, tried.asked)
        want = tried.best()
        assert matched.score[: len(want)] == pytest.approx(want, rel=1e-9, abs=1e-6), aim
        assert matched.bound.kind == "exhausted" or not matched.panels
