"""Hail: a larger ball hits harder, a thicker or stronger sheet bears more, findings lie where they should."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.glass.pane import Pane, Plies, Sheet
from panewright.glass.strength.hail import energy_j, fall_m_s, hail_check, largest_ball_mm, limit_j

BALL = st.floats(1.0, 120.0)


def sheet(thickness=3.8, treatment="tempered", material="glass", plies=None):
    whole = thickness + (plies.between_mm if plies else 0.0) + 0.2
    return Sheet("x", material, treatment, "plain", whole, thickness, 2500.0, 9e-6, 0.9, plies)


@given(BALL, st.floats(1.001, 3.0))
def test_a_larger_ball_falls_faster_and_hits_harder(ball, times):
    assert fall_m_s(ball * times) > fall_m_s(ball) * 0.98  # the table and the law beside it differ by 2 %
    assert energy_j(ball * times) > energy_j(ball) * 0.96 * times**3


@given(
    st.floats(1.0, 12.0),
    st.floats(1.001, 3.0),
    st.sampled_from(["annealed", "heat-strengthened", "tempered"]),
)
def test_thicker_never_bears_less(thickness, times, treatment):
    assert limit_j(sheet(thickness * times, treatment)) > limit_j(sheet(thickness, treatment))


def test_stronger_glass_bears_more():
    limits = [limit_j(sheet(treatment=name)) for name in ("annealed", "heat-strengthened", "tempered")]
    assert limits == sorted(limits)
    assert limits[0] == pytest.approx(0.195 * limits[2], rel=2e-3)


def test_the_test_ball_of_25_mm_passes_the_trade_s_solar_glass_and_breaks_window_glass():
    assert hail_check(Pane(1600, 1000, sheet(3.0)), 25.0).passed  # 3.2 mm tempered
    assert not hail_check(Pane(1600, 1000, sheet(3.8, "annealed")), 25.0).passed
    assert not hail_check(Pane(1600, 1000, sheet(3.8)), 45.0).passed
    assert not hail_check(Pane(1600, 1000, sheet(2.3, "none", "acrylic")), 25.0).passed
    assert hail_check(Pane(1600, 1000, sheet(5.0, "none", "acrylic")), 25.0).passed


def test_no_ball_no_harm_and_the_check_says_how_weak_it_is():
    check = hail_check(Pane(1600, 1000, sheet()), 0.0)
    assert check.demand == 0
    assert check.passed
    assert check.unit == "J"
    assert "weakest of the proofs" in check.source


def test_of_two_plies_the_outer_one_is_hit():
    two = sheet(6.0, plies=Plies(2.0, 4.0, 0.76, "pvb"))
    assert limit_j(two) == limit_j(sheet(2.0))


def test_the_largest_ball_is_the_one_at_the_limit():
    assert energy_j(largest_ball_mm(sheet())) == pytest.approx(limit_j(sheet()), rel=1e-6)


def test_patterned_glass_bears_less_by_its_own_strength():
    """(90/120)^(5/3) and (33/120)^(5/3), strengths of EN 572 and EN 12150 as in `en16612`."""
    plain = Sheet("4 mm", "glass", "tempered", "plain", 4.0, 3.8, 2500.0, 9e-6, 0.9)
    patterned = replace(plain, surface="patterned")
    assert limit_j(patterned) / limit_j(plain) == pytest.approx(0.619, abs=5e-4)
    annealed = replace(patterned, treatment="annealed")
    assert limit_j(annealed) / limit_j(plain) == pytest.approx(0.116, abs=5e-4)
