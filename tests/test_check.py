"""A check says whether a demand stays within a limit, and never passes by accident."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.check import Check


def check(demand: float, limit: float | None) -> Check:
    return Check("glass deflection in wind", demand, limit, "mm", "EN 16612")


@given(st.floats(0, 1e9), st.floats(0, 1e9))
def test_a_check_passes_exactly_when_its_use_is_at_most_one(demand, limit):
    assert check(demand, limit).passed == (demand <= limit * (1 + 1e-12))


@given(st.floats())
def test_a_case_that_no_rule_covers_never_passes(demand):
    foreign = check(demand, None)
    assert not foreign.passed
    assert foreign.verdict == "NOT COVERED"
    assert foreign.utilisation == math.inf


@pytest.mark.parametrize(("demand", "limit"), [(math.nan, 1.0), (1.0, math.nan), (math.nan, math.nan)])
def test_a_figure_that_is_not_a_number_never_passes(demand, limit):
    assert not check(demand, limit).passed
    assert check(demand, limit).utilisation == math.inf


def test_a_check_prints_demand_limit_verdict_and_source():
    assert str(check(8.1, 6.6)) == "glass deflection in wind: 8.1 of 6.6 mm, TOO MUCH (EN 16612)"


def test_a_limit_of_nothing_lets_nothing_through():
    assert check(0.0, 0.0).passed
    assert check(0.1, 0.0).utilisation == math.inf


@pytest.mark.parametrize(("rule", "source"), [("", "EN 16612"), ("deflection", "")])
def test_a_check_without_rule_or_source_is_refused(rule, source):
    with pytest.raises(ValueError, match="names its rule"):
        Check(rule, 1.0, 2.0, "mm", source)
