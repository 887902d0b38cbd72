"""A panel in the open against the heights that ASCE's free roof was measured for: h/L 0.25 to 1."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.climate.site import Site, Wind
from panewright.climate.wind.asce_net import height_checks
from panewright.climate.wind.asce_open import height_check

GUST = Wind(44.7, "3 s gust", "ASCE 7-16", risk_category="II", ground="C")
SITE = Site("ASCE", GUST, 0, -20, 40, 30, 2.5, 0, "free-standing")


@pytest.mark.parametrize(
    ("top_mm", "demand", "limit", "passed"),
    [
        (1500.0, 1.0, 1.0, True),
        (1501.0, 1.001, 1.0, False),
        (750.0, 0.25, 1.0, True),
        (700.0, 0.25, 0.2, False),
    ],
)
def test_mean_height_over_length_in_plan(top_mm, demand, limit, passed):
    """1 m of rise and 1 m of reach: the middle stands half a metre under the top."""
    check = height_check(top_mm, 1000.0, 1000.0)
    assert (check.demand, check.limit) == (pytest.approx(demand), pytest.approx(limit))
    assert check.passed is passed


@given(st.floats(500, 10_000), st.floats(50, 2000), st.floats(300, 3000))
def test_the_height_in_the_cure_is_one_that_holds(top_mm, rise_mm, reach_mm):
    check = height_check(top_mm, rise_mm, reach_mm)
    if not check.passed:
        told = float(check.cure.split(" to ")[1].split(" mm")[0])
        inside = told + (1.0 if "Raise" in check.cure else -1.0)  # told to a whole millimetre
        assert height_check(inside, rise_mm, reach_mm).passed


@pytest.mark.parametrize("mounting", ["free-standing", "pole"])
def test_a_panel_in_the_open_is_held_against_it(mounting):
    (check,) = height_checks(replace(SITE, mounting=mounting), 800.0, 1385.6)
    assert check.demand == pytest.approx(2100 / 1385.6)
    assert not check.passed


def test_a_sign_alone_a_roofs_own_rule_a_wall_and_the_other_family_are_not():
    eurocode = Wind(25.0, "10 min mean", "EN 1991-1-4", return_years=50.0, ground="II")
    for other in (
        replace(SITE, tilt_deg=60.0),
        replace(SITE, mounting="flat roof"),
        replace(SITE, mounting="wall", tilt_deg=90.0),
        replace(SITE, family="EN", wind=eurocode),
    ):
        assert height_checks(other, 800.0, 1385.6) == ()


def test_a_flat_roof_under_an_edition_without_a_rule_is():
    older = replace(SITE, mounting="flat roof", wind=replace(GUST, edition="ASCE 7-10"))
    assert len(height_checks(older, 800.0, 1385.6)) == 1
