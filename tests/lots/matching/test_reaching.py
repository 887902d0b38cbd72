"""Panels lifted to what is asked of them: limits are kept, and what sorting misses is made."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import numpy as np
import pytest
from campaigns import matching
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from panewright.lots.matching.asked import Asked, Limits, MostMoney, MostReaching, MostWatts, Step
from panewright.lots.matching.deal import cells_of, exact_w
from panewright.lots.matching.match import bench, match, most_panels_of
from panewright.lots.matching.plans.assigning import regrouped
from panewright.lots.matching.plans.bending import Bends
from panewright.lots.matching.plans.lifting import lifted
from panewright.lots.matching.plans.making import folded
from panewright.lots.matching.plans.needs import needs
from panewright.lots.matching.plans.reaching import conceded, raised
from panewright.lots.matching.plans.scoring import Steps
from panewright.lots.matching.plans.sorting import dealt_evenly
from panewright.lots.matching.proof.counts import Cut
from panewright.lots.matching.vectors import stand, summed

FEW = settings(deadline=None, max_examples=8, suppress_health_check=list(HealthCheck))
STEPS = Steps.of(MostMoney(tuple(Step(100.0 + 5 * k, Decimal(50 + 10 * k)) for k in range(3))))


def lot_of(count: int, seed: int, **how: float):
    return matching.standing(matching.cells(count, seed, matching.Drawn(**how)))


def test_what_is_asked_earns_the_sum_and_is_no_more_than_the_strongest_give():
    gives = np.cumsum([112.0, 107.0, 103.0, 99.0])
    ways = list(needs(STEPS, (), gives, 16_000 + 3_000))
    assert ways
    for way in ways:
        assert STEPS.earned(way).sum() == 19_000
        assert (np.diff(way) <= 0).all()
        assert (np.cumsum(way) <= gives[: way.size] * 1.001).all()
    assert len({tuple(way) for way in ways}) == len(ways)
    assert ways[0].tolist() == [110.0, 105.0, 105.0]


def test_a_way_that_a_cut_refutes_is_not_asked():
    gives = np.cumsum([112.0, 107.0, 103.0])
    assert not list(needs(STEPS, (Cut((1.0, 1.0, 1.0), 2.5),), gives, 18_000))


@given(st.integers(0, 10**6), st.sampled_from([(8, 1, 2), (9, 3, 1), (12, 2, 2)]), st.booleans())
@FEW
def test_a_lifted_deal_keeps_the_rules_and_its_worst_panel_is_no_worse(seed, build, limited):
    lot = lot_of(50, seed, leaky=0.1)
    asked = Asked(matching.wiring(*build), MostWatts(), Limits(6.0, 1) if limited else Limits())
    maker = bench(lot, asked)
    first = next(iter(maker.starts(4)))
    if len(first) < 4:
        return
    power = exact_w(asked.network, lot.cells, cells_of(maker.rules, first))
    need = np.full(4, power.mean())
    dealt = lifted(maker.vectors, maker.rules, first, need)
    again = exact_w(asked.network, lot.cells, cells_of(maker.rules, dealt))
    assert (again - need).min() >= (power - need).min() - 1e-3
    taken = dealt[dealt >= 0]
    assert np.unique(taken).size == taken.size


def test_whole_strings_are_exchanged_for_what_panels_are_worth():
    lot = lot_of(96, 3)
    maker = bench(lot, Asked(matching.wiring(24, 3, 1), MostWatts()))
    plain = maker.sorted_deal()
    power = exact_w(maker.network, lot.cells, cells_of(maker.rules, plain))
    even = regrouped(maker.vectors, plain, lambda _places, watts: -((watts - power.mean()) ** 2))
    again = exact_w(maker.network, lot.cells, cells_of(maker.rules, even))
    assert np.ptp(again) < 0.3 * np.ptp(power)
    assert sorted(even.reshape(-1).tolist()) == sorted(plain.reshape(-1).tolist())


@given(st.integers(0, 10**6), st.integers(1, 3), st.sampled_from([(4, 1, 2), (6, 2, 1), (6, 1, 1)]))
@FEW
def test_leaky_cells_shared_evenly_fill_as_many_panels_as_can_be(seed, most_leaky, build):
    lot = lot_of(24, seed, leaky=0.4)
    maker = bench(lot, Asked(matching.wiring(*build), MostWatts(), Limits(6.0, most_leaky)))
    rules, parts = maker.rules, len(maker.rules.seats.substrings)
    leaky = int(rules.leaks.sum())
    panels = 24 // build[0]
    most = max(
        n for n in range(panels + 1) if 24 - leaky + min(leaky, n * parts * most_leaky) >= n * build[0]
    )
    assert most_panels_of(rules, 24) == maker.panels == most
    dealt = dealt_evenly(rules, maker.by_imp(np.arange(24)).tolist(), most)
    assert len(dealt) == most
    assert len(cells_of(rules, dealt)) == most


def test_leaky_cells_that_sorting_leaves_waiting_make_a_panel_more():
    lot = lot_of(60, 4, leaky=0.25)
    asked = Asked(matching.wiring(12, 1, 3), MostWatts(), Limits(6.0, 1))
    maker = bench(lot, asked)
    plain = len(maker.sorted_deal())
    assert plain < maker.panels
    matched = match(lot, asked)
    assert matching.fault(matched) == ""
    assert len(matched.panels) == maker.panels


@pytest.mark.parametrize("seed", [1, 3])
def test_strings_side_by_side_are_made_even_though_each_holds_its_current(seed):
    lot = lot_of(72, seed, imp=0.05)
    maker = bench(lot, maker_asked(24))
    first = folded(maker.sorted_deal())
    need = np.full(3, matching.sorted_w(lot, maker_asked(24)).mean())
    before, after = (
        exact_w(maker.network, lot.cells, cells_of(maker.rules, deal)) - need
        for deal in (first, lifted(maker.vectors, maker.rules, first, need))
    )
    assert before.min() < -0.3
    assert after.min() > 0.25 * before.min()


def test_each_further_volt_brings_less_and_each_that_lacks_costs_more():
    lot = lot_of(24, 1)
    maker = bench(lot, maker_asked(24))
    sums = summed(maker.vectors, maker.sorted_deal())[0]
    amps = stand(maker.vectors, sums[None]).string_a[0]
    bends = Bends.of(maker.vectors, sums, amps)
    assert (np.diff(bends.more_a, axis=1) < 0).all()
    assert (np.diff(bends.less_a, axis=1) > 0).all()
    assert (bends.more_a[:, 0] < bends.less_a[:, 0]).all()
    fewer = bends.step_v[:, 0]
    for k, curve in enumerate(sums - maker.vectors.taken_v):
        there = np.interp(-bends.volt_v[k], -curve - fewer[k], maker.vectors.current_a)
        assert there == pytest.approx(amps[k] + bends.more_a[k, 0] * fewer[k], abs=1e-9)


def test_where_all_that_is_asked_cannot_be_had_steps_are_given_up_one_by_one():
    lot, network = lot_of(48, 3), matching.wiring(12, 1, 1)
    mean = float(matching.sorted_w(lot, Asked(network, MostWatts())).mean())
    steps = tuple(Step(round(mean + k / 2, 2), Decimal(90 + 11 * k)) for k in range(-3, 3))
    maker = bench(lot, Asked(network, MostMoney(steps)))
    plain, need = maker.made(maker.sorted_deal()), np.full(4, steps[-1].from_w)
    begun = raised(maker, maker.sorted_deal(), need, 4 * 11_200)
    made = conceded(maker, begun, need, plain)
    assert max(plain.score[0], begun.made.score[0]) < made.score[0] < 4 * 11_200
    assert np.unique(made.strings).size == made.strings.size


def maker_asked(cells: int) -> Asked:
    return Asked(matching.wiring(cells, 2, 1), MostWatts())


@pytest.mark.parametrize("strings", [1, 3])
def test_panels_that_sorting_leaves_short_are_lifted(strings):
    lot = lot_of(72, 2, imp=0.05)
    asked = Asked(matching.wiring(18, strings, 1), MostWatts())
    power = matching.sorted_w(lot, asked)
    matched = match(lot, replace(asked, aim=MostReaching(round(0.998 * float(power.mean()), 2))))
    assert matching.fault(matched) == ""
    assert matched.sorted_score[0] == (power >= 0.998 * power.mean()).sum()
    assert matched.sorted_score[0] < matched.score[0] == matched.bound.value
