"""A bound by cases of where strings work: every case holds for every deal that falls into it."""

from __future__ import annotations

from contextlib import contextmanager

import numpy as np
import pytest
from campaigns import matching
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from panewright.lots.matching.asked import Asked, MostWatts
from panewright.lots.matching.match import bench
from panewright.lots.matching.plans.assigning import currents_of, near
from panewright.lots.matching.proof import branching
from panewright.lots.matching.proof.branching import by_cases
from panewright.lots.matching.proof.ceilings import Ceilings
from panewright.lots.matching.proof.prove import Prover
from panewright.lots.matching.proof.sets import Room
from panewright.lots.matching.proof.settling import most_watts_prices
from panewright.lots.matching.proof.windows import Windows
from panewright.lots.matching.vectors import stand, summed

FEW = settings(deadline=None, max_examples=8, suppress_health_check=list(HealthCheck))
_EDGE = 0.003  # A: vectors place a current about so well


def settled(count: int, build: tuple[int, int, int], seed: int, **how: float):
    """A lot, and what prices prove before any case."""
    lot = matching.standing(matching.cells(count, seed, matching.Drawn(**how)))
    maker = bench(lot, Asked(matching.wiring(*build), MostWatts()))
    rules = maker.rules
    room = Room.of(rules.pieces, rules.seats, rules.most_leaky)
    prover = Prover.of((rules.pieces, maker.network, room), (maker.own_w, maker.imp_a), maker.vectors)
    made = maker.made(maker.sorted_deal())
    current = currents_of(maker.vectors, made.strings)
    begin = current, near(rules, made.strings, current)
    strings = made.strings.shape[0] * made.strings.shape[1]
    return maker, strings, most_watts_prices((rules.pieces, maker.network), prover.shop, strings, begin, 0.0)


def pairs(cells: frozenset[int]):
    """All ways to put cells into strings of two."""
    if not cells:
        yield ()
        return
    first = min(cells)
    for other in sorted(cells - {first}):
        for rest in pairs(cells - {first, other}):
            yield ((first, other), *rest)


def deals(count: int):
    """All ways to put so many cells into panels of two strings of two."""
    for strings in pairs(frozenset(range(count))):
        for panels in pairs(frozenset(range(len(strings)))):
            yield [[strings[k] for k in panel] for panel in panels]


@contextmanager
def solved_for(whole: bool):
    """Cases solved for as a whole, or near each cut alone."""
    before, branching._WHOLE = branching._WHOLE, 99 if whole else 0
    try:
        yield
    finally:
        branching._WHOLE = before


@given(st.integers(0, 10**6), st.booleans())
@FEW
def test_every_deal_of_eight_cells_lies_below_the_case_it_falls_into(seed, whole):
    maker, strings, root = settled(8, (4, 2, 1), seed, imp=0.05)
    with solved_for(whole):
        cases = by_cases(root, strings, 0.0, lambda *_: 0.0)
    every = np.array(list(deals(8)))
    stands = stand(maker.vectors, summed(maker.vectors, every.reshape(-1, 2, 2)))
    watts = stands.power_w.reshape(len(every), -1).sum(axis=1)
    current = -np.sort(-stands.string_a.reshape(len(every), -1), axis=1)
    fell = np.zeros(len(every), dtype=bool)
    for case in cases.ends:
        low, high = case.windows.low_a + _EDGE * (case.windows.low_a > 0), case.windows.high_a - _EDGE
        inside = ((current >= low) & (current <= high)).all(axis=1)
        assert (watts[inside] <= case.found.bound + 1e-6).all()
        fell |= inside
    assert fell.mean() > 0.5
    assert watts.max() <= cases.bound + 1e-6 <= root.bound + 2e-6


def test_a_string_that_must_work_above_a_current_is_there_though_its_pieces_are_dearer_than_it_gives():
    low, high = np.array([0.0, 8.0, 9.0]), np.array([8.0, 9.0, 10.0])
    none = np.zeros((6, 1), dtype=bool)
    table = Ceilings(low, high, np.zeros((6, 1)), np.zeros(6), none, np.zeros(6))
    worth = np.array([-3.0, -1.0, -2.0, -4.0, -1.5, -2.5])
    below, above = Windows.wide(3).halved(1, 9.0)
    assert above.worths(table, worth).tolist() == [-2.0, -2.0, 0.0]
    assert below.worths(table, worth).tolist() == [0.0, 0.0, 0.0]
    nowhere = above.halved(0, 9.0)[0]
    assert np.isfinite(nowhere.worths(table, worth)).all()


@pytest.mark.parametrize("whole", [True, False])
def test_of_two_strings_side_by_side_cases_lower_the_bound(whole):
    _, strings, root = settled(40, (8, 2, 1), 6, imp=0.04)
    with solved_for(whole):
        cases = by_cases(root, strings, 0.0, lambda *_: 0.0)
    assert len(cases.ends) > 2
    assert cases.bound < root.bound - 0.002


@pytest.mark.parametrize("count", [4, 8])
def test_the_deals_tried_are_all_there_are(count):
    found = {frozenset(frozenset(map(frozenset, panel)) for panel in deal) for deal in deals(count)}
    assert len(found) == len(list(deals(count))) == {4: 3, 8: 315}[count]
