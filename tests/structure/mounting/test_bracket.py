"""A bracket's legs: statics by hand, and laws."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.support.bracket import Bracket
from panewright.structure.mounting.bolted import M6, M8, Bolted, choose_bolt, judge_bolted
from panewright.structure.mounting.bracket import choose_bracket, judge_bracket, moment_nmm, pull_n
from panewright.structure.mounting.forces import BracketForces

LIFT = BracketForces(up_n=500.0, down_n=500.0, along_n=0.0, along_snow_n=0.0, along_rest_n=0.0)


def angle(wall_mm):
    return Bracket(f"{wall_mm}", 40.0, wall_mm, 40.0, "6063-T6")


def test_prying_by_moments_about_the_toe():
    """Lever 22 - 2 = 20, toe 18: the fastener bears 500 x 38 / 18."""
    assert pull_n(angle(4.0), 500.0, 0.0) == pytest.approx(500 * 38 / 18)


def test_sliding_turns_the_bracket_about_its_toe():
    assert pull_n(angle(4.0), 0.0, 90.0) == pytest.approx(90 * 20 / 18)
    assert moment_nmm(angle(4.0), 0.0, 90.0) == pytest.approx(90 * 20)


def test_bending_over_the_net_section():
    """500 x 20 over (40 - 9) x 16 / 6; ASCE 6063-T6 bears 172 / 1.65, EN 160 / 1.10."""
    for family, limit in (("ASCE", 172 / 1.65), ("EN", 160 / 1.1)):
        lifted = judge_bracket(angle(4.0), LIFT, family)[0]
        assert lifted.demand == pytest.approx(10000 / (31 * 16 / 6))
        assert lifted.limit == pytest.approx(limit)


def test_a_metal_that_the_family_does_not_list_is_not_covered():
    steel = Bracket("s", 40.0, 4.0, 40.0, "S235")
    assert all(check.limit is None for check in judge_bracket(steel, LIFT, "ASCE"))
    assert all(check.covered for check in judge_bracket(steel, LIFT, "EN"))


@given(st.floats(2, 11.5), st.floats(1, 4000), st.floats(1, 3), st.sampled_from(["ASCE", "EN"]))
def test_more_lift_and_less_metal_are_never_safer(wall, up_n, factor, family):
    forces, more = replace(LIFT, up_n=up_n), replace(LIFT, up_n=up_n * factor)
    worst = max(check.utilisation for check in judge_bracket(angle(wall), forces, family))
    assert max(check.utilisation for check in judge_bracket(angle(wall), more, family)) >= worst
    thicker = max(check.utilisation for check in judge_bracket(angle(wall * 1.05), forces, family))
    assert thicker <= worst


@given(st.floats(1, 6000), st.sampled_from(["ASCE", "EN"]))
def test_the_thinnest_that_holds_is_taken(up_n, family):
    brackets = tuple(angle(wall) for wall in (4.0, 6.0, 8.0, 10.0))
    forces = replace(LIFT, up_n=up_n)
    chosen = choose_bracket(brackets, forces, family)
    holds = [all(check.passed for check in judge_bracket(each, forces, family)) for each in brackets]
    assert chosen == (brackets[holds.index(True)] if any(holds) else brackets[-1])


@pytest.mark.parametrize("family", ["ASCE", "EN"])
def test_a_larger_bolt_is_taken_where_the_small_one_fails(family):
    joint = Bolted(family, angle(10.0), M6, 6.0, "stainless 304")
    assert choose_bolt(joint, LIFT).bolt == M6
    strong = replace(LIFT, up_n=6000.0)
    assert choose_bolt(joint, strong).bolt == M8
    assert not all(check.passed for check in judge_bolted(joint, strong))


def test_a_bracket_of_no_sense_is_refused():
    with pytest.raises(ValueError, match="under a third"):
        Bracket("b", 40.0, 14.0, 40.0, "6063-T6")
