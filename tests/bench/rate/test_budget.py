"""Uncertainty budgets: laws that hold for any computation."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.bench.rate.budget import Input, budgets

SIGMAS = st.lists(st.floats(0.01, 3), min_size=2, max_size=5)


def inputs(sigmas):
    return [Input(f"input {k}", sigma, "V") for k, sigma in enumerate(sigmas)]


@given(SIGMAS, st.data())
def test_a_straight_law_adds_by_squares(sigmas, data):
    slopes = data.draw(st.lists(st.floats(-5, 5), min_size=len(sigmas), max_size=len(sigmas)))

    def law(off):
        return {"sum": 7 + sum(slope * off.get(f"input {k}", 0.0) for k, slope in enumerate(slopes))}

    found = budgets(law, inputs(sigmas)).of("sum")
    assert found.value == 7
    assert found.sigma == pytest.approx(np.linalg.norm(np.multiply(slopes, sigmas)), rel=1e-9, abs=1e-12)
    assert found.expanded == 2 * found.sigma
    assert found.bend_share == pytest.approx(0, abs=1e-6)


@given(st.floats(0.01, 3), st.floats(-1, 1))
def test_errors_that_go_together_add_and_cancel(sigma, share):
    pair = inputs([sigma, sigma])
    together = {("input 0", "input 1"): share}
    found = budgets(
        lambda off: {
            "sum": off.get("input 0", 0.0) + off.get("input 1", 0.0),
            "less": off.get("input 0", 0.0) - off.get("input 1", 0.0),
        },
        pair,
        together,
    )
    assert found.of("sum").sigma == pytest.approx(sigma * (2 + 2 * share) ** 0.5, abs=1e-7)
    assert found.of("less").sigma == pytest.approx(sigma * (2 - 2 * share) ** 0.5, abs=1e-7)


def test_a_law_that_bends_says_so():
    found = budgets(lambda off: {"square": (1 + off.get("input 0", 0.0)) ** 2}, inputs([0.5])).of("square")
    assert found.sigma == pytest.approx(1.0)
    assert found.bend_share == pytest.approx(0.25)


def test_the_greatest_share_stands_first_and_nothing_known_costs_nothing():
    found = budgets(
        lambda off: {"sum": 10 * off.get("input 0", 0.0) + off.get("input 1", 0.0)}, inputs([0.1, 2.0, 0.0])
    ).of("sum")
    assert [term.input.name for term in found.terms] == ["input 1", "input 0", "input 2"]
    assert found.terms[0].share == pytest.approx(0.8)
    assert budgets(lambda _: {"still": 3.0}, []).of("still").sigma == 0


@pytest.mark.parametrize(
    "together",
    [
        {("input 0", "input 1"): 1.4},
        {("input 0", "input 1"): 0.9, ("input 1", "input 2"): 0.9, ("input 0", "input 2"): -0.9},
    ],
)
def test_correlations_that_cannot_be_are_refused(together):
    with pytest.raises(ValueError, match="no errors go together"):
        budgets(lambda off: {"sum": sum(off.values())}, inputs([1, 1, 1]), together)


def test_two_inputs_of_one_name_are_refused():
    with pytest.raises(ValueError, match="name of its own"):
        budgets(lambda _: {"still": 0.0}, [Input("light", 1, "W/m2"), Input("light", 2, "W/m2")])
