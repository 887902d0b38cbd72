"""How many to buy, beside scipy's binomial and beta-binomial laws."""

from __future__ import annotations

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from scipy.stats import betabinom, binom

from panewright.lots.buying.needed import chance_enough, needed
from panewright.lots.buying.rate import Rate
from panewright.price.breakage import cells_to_buy


@given(st.integers(1, 2000), st.floats(0.0, 0.6), st.floats(0.5, 0.999))
@settings(deadline=None, max_examples=60)
def test_the_fewest_by_the_binomial_law(good, lost, sure):
    told = needed(good, [Rate.known("bench", lost)], sure)
    assert told.sure == pytest.approx(binom.sf(good - 1, told.cells, 1 - lost), rel=1e-9)
    assert told.sure >= sure
    assert told.cells == good or binom.sf(good - 1, told.cells - 1, 1 - lost) < sure * (1 + 1e-12)


@given(st.integers(1, 1500), st.integers(0, 30), st.integers(31, 400))
@example(448, 26, 31)
@settings(deadline=None, max_examples=60)
def test_the_fewest_by_the_beta_binomial_law(good, lost, tried):
    told = needed(good, [Rate.counted("bench", lost, tried)])
    law = (tried - lost + 0.5, lost + 0.5)
    assert told.sure == pytest.approx(betabinom.sf(good - 1, told.cells, *law), abs=1e-9)
    assert told.cells == good or betabinom.sf(good - 1, told.cells - 1, *law) < 0.95 + 1e-9


def test_known_steps_multiply():
    steps = [Rate.known("cut", 0.02), Rate.known("solder", 0.03), Rate.known("lay up", 0.01)]
    assert chance_enough(40, 36, steps) == pytest.approx(binom.sf(35, 40, 0.98 * 0.97 * 0.99), rel=1e-12)


def test_two_counted_steps_are_two_thinnings_one_after_the_other():
    first, second = (0, 20), (4, 60)
    left = betabinom(60, 20.5, 0.5)
    exact = sum(left.pmf(n) * betabinom.sf(49, n, 56.5, 4.5) for n in range(50, 61))
    steps = [Rate.counted("arrival", *first), Rate.counted("solder", *second)]
    assert chance_enough(60, 50, steps) == pytest.approx(exact, rel=1e-9)


def test_three_counted_steps_are_as_exact_as_two():
    left = betabinom(60, 40.5, 1.5)
    middle = [sum(left.pmf(n) * betabinom.pmf(m, n, 49.5, 1.5) for n in range(m, 61)) for m in range(61)]
    exact = sum(middle[m] * betabinom.sf(49, m, 56.5, 4.5) for m in range(50, 61))
    steps = [Rate.counted("a", 1, 41), Rate.counted("b", 1, 50), Rate.counted("c", 4, 60)]
    assert chance_enough(60, 50, steps) == pytest.approx(exact, rel=2e-4)


@given(st.integers(1, 300), st.floats(0.001, 0.3))
@settings(deadline=None, max_examples=40)
def test_one_known_step_agrees_with_the_price_of_an_order(good, lost):
    assert needed(good, [Rate.known("bench", lost)]).cells == cells_to_buy(good, lost)


def test_a_rate_counted_on_few_asks_for_more_than_the_same_rate_known():
    known = needed(360, [Rate.known("bench", 0.05)]).cells
    many = needed(360, [Rate.counted("bench", 49.5, 999)]).cells
    few = needed(360, [Rate.counted("bench", 0.5, 19)]).cells
    assert known <= many < few


def test_packs_are_whole():
    told = needed(72, [Rate.known("bench", 0.05)], pack=40)
    assert (told.packs, told.bought) == (2, 80)
    assert needed(0, [], pack=40).packs == 0


@pytest.mark.parametrize("wrong", [(-1, 0.95, 1), (5, 1.0, 1), (5, 0.9, 0)])
def test_senseless_asks_are_refused(wrong):
    good, sure, pack = wrong
    with pytest.raises(ValueError, match="good cells"):
        needed(good, [], sure, pack)


def test_rates_past_all_cells_are_refused():
    for lost, tried in ((1.0, None), (-0.1, None), (5, 4)):
        with pytest.raises(ValueError, match="loses from none to all"):
            Rate("bench", lost, tried)
