"""Laws of the frame's corners, screwed and welded."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.fastener import FASTENERS
from panewright.frame.rail import Rail
from panewright.structure.corner import (
    Fastened,
    fastener_loads,
    judge_fastened,
    judge_welded,
    softened_stress_mpa,
    weld_stress_mpa,
)
from panewright.structure.corner_force import (
    CornerForce,
    carried_n,
    end_moment_nmm,
    held_share,
    lifted_force,
    standing_force,
    weather_force,
)
from panewright.structure.loads import Loads

RAIL = Rail("L38", "angle", 38.1, 38.1, 3.175, "6063-T6", 6000)
TUBE = Rail("tube", "tube", 30.0, 30.0, 2.0, "6063-T6", 6000)
SCREWED = Fastened(RAIL, FASTENERS["screw M5"], "stainless", "upright", 18.0, 25.0)
forces = st.builds(CornerForce, st.just("at will"), *[st.floats(0, 5000)] * 2, *[st.floats(0, 50_000)] * 2)
families = st.sampled_from(["ASCE", "EN"])


def loads(pa, family="EN"):
    return Loads(family, (), (), pa, pa, pa, pa, pa)


@given(forces, st.floats(1, 3), families, st.booleans())
def test_more_force_is_never_safer(force, factor, family, welded):
    grown = CornerForce(
        force.case,
        factor * force.shear_n,
        factor * force.pull_n,
        factor * force.bend_nmm,
        factor * force.rack_nmm,
    )
    less, more = (
        judge_welded(RAIL, (each,), family) if welded else judge_fastened(SCREWED, (each,), family)
        for each in (force, grown)
    )
    assert [c.rule for c in less] == [c.rule for c in more]
    assert all(m.utilisation >= s.utilisation * (1 - 1e-12) for s, m in zip(less, more, strict=True))


def test_a_screw_in_the_upright_is_sheared_both_ways_and_in_the_seat_pulled():
    force = CornerForce("by hand", 300.0, 400.0, rack_nmm=2000.0)
    assert fastener_loads(SCREWED, force) == pytest.approx((500.0, 2000.0 / 10.0))
    seat = replace(SCREWED, leg="seat")
    assert fastener_loads(seat, force) == pytest.approx((400.0, 300.0 + 200.0))


def test_shares_of_shear_and_pull_are_summed():
    force = CornerForce("by hand", 0.0, 400.0, rack_nmm=2000.0)
    shear, pull, both, edge = judge_fastened(SCREWED, (force,), "EN")
    assert both.demand == pytest.approx(shear.utilisation + pull.utilisation)
    assert both.limit == 1.0
    assert edge.demand == pytest.approx(1.2 * 5.5)


def test_a_rivet_that_is_pulled_is_not_covered_by_asce():
    riveted = replace(SCREWED, fastener=FASTENERS["rivet 4.8 stainless"])
    force = CornerForce("by hand", 100.0, rack_nmm=100.0)
    checks = {check.rule: check for check in judge_fastened(riveted, (force,), "ASCE")}
    assert not checks["corner blind rivet 4.8 mm, stainless pulled, by hand"].covered
    assert not checks["corner blind rivet 4.8 mm, stainless sheared and pulled, by hand"].covered
    assert checks["corner blind rivet 4.8 mm, stainless in shear, by hand"].passed


def test_an_alloy_that_the_family_does_not_list_has_no_corner():
    strange = replace(RAIL, alloy="6060-T66")
    force = weather_force(300.0)
    assert not judge_fastened(replace(SCREWED, rail=strange), (force,), "ASCE")[0].covered
    assert not judge_welded(strange, (force,), "ASCE")[0].covered


def test_a_weld_by_hand():
    """600 N over 38.1 x 0.7 x 3.175 mm of throat; 10 N m on its section; root of s^2 + 3 t^2."""
    throat = 0.7 * 3.175
    shear, bent = 600 / (38.1 * throat), 6 * 10_000 / (throat * 38.1**2)
    force = CornerForce("by hand", 600.0, bend_nmm=10_000.0)
    assert weld_stress_mpa(RAIL, force) == pytest.approx(math.sqrt(bent**2 + 3 * shear**2))
    assert softened_stress_mpa(RAIL, CornerForce("by hand", 0.0, 231.854)) == pytest.approx(1.0, rel=1e-5)


@given(st.floats(300, 2000), st.floats(60, 800), families)
def test_an_angle_holds_little_of_a_clamped_end_and_a_tube_more(short_mm, from_end_mm, family):
    angle = held_share(RAIL, short_mm, from_end_mm, family)
    assert 0 < angle < held_share(TUBE, short_mm, from_end_mm, family) < 1


def test_the_end_moment_lies_between_hinge_and_clamp():
    """1000 Pa on a triangle 500 mm high at its peak: 5 w b^2/96 is 26 N m."""
    clamped = 5 * 0.5 * 1000**2 / 96
    moment = end_moment_nmm(RAIL, 1000.0, 300.0, loads(1000.0))
    assert moment == pytest.approx(clamped * held_share(RAIL, 1000.0, 300.0, "EN"))


def test_a_panel_of_20_kg_in_the_hands():
    assert carried_n(20.0, "ASCE") == pytest.approx(392.27, abs=0.01)
    assert carried_n(20.0, "EN") == pytest.approx(1.35 * 392.27, abs=0.01)
    assert lifted_force(20.0, "ASCE").shear_n == pytest.approx(196.13, abs=0.01)
    assert standing_force(20.0, 400.0, 300.0, "ASCE").pull_n == pytest.approx(0.8 * 392.27, abs=0.01)


def test_a_force_of_no_size_is_refused():
    with pytest.raises(ValueError, match="size"):
        CornerForce("wrong", -1.0)
