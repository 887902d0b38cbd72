"""Laws of the frame's corners, screwed and welded."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.joining.fastener import FASTENERS
from panewright.frame.rail import Rail
from panewright.frame.support.clip import USUAL, cut_clip
from panewright.structure.corners.corner import (
    Fastened,
    fastener_loads,
    judge_fastened,
    judge_welded,
    softened_stress_mpa,
    twisted_mpa,
    weld_stress_mpa,
)
from panewright.structure.corners.force import (
    CornerForce,
    carried_n,
    lifted_force,
    standing_force,
    weather_force,
)
from panewright.structure.drilling.frame_plan import Band, corner_from_end_mm
from panewright.structure.space.bounds import AtCorner, Force

RAIL = Rail("L38", "angle", 38.1, 38.1, 3.175, "6063-T6", 6000)
TUBE = Rail("tube", "tube", 30.0, 30.0, 2.0, "6063-T6", 6000)
SCREWED = Fastened(RAIL, FASTENERS["screw M5"], USUAL["stainless"], "upright", 18.0, 15.0)
SEATED = replace(SCREWED, leg="seat", from_end_mm=40.0)
PARTS = ("shear_n", "pull_n", "apart_n", "twist_nmm", "tilt_nmm", "turn_nmm")
forces = st.builds(CornerForce, st.just("at will"), *[st.floats(0, 5000)] * 3, *[st.floats(0, 50_000)] * 3)
families = st.sampled_from(["ASCE", "EN"])


def judged(force, family, joined):
    if joined == "welded":
        return judge_welded(RAIL, (force,), family) + judge_welded(TUBE, (force,), family)
    return judge_fastened(SCREWED if joined == "upright" else SEATED, (force,), family)


@given(
    forces, st.sampled_from(PARTS), st.floats(1, 3), families, st.sampled_from(["upright", "seat", "welded"])
)
def test_more_of_any_force_or_moment_is_never_safer(force, part, factor, family, joined):
    grown = replace(force, **{part: factor * getattr(force, part)})
    less, more = judged(force, family, joined), judged(grown, family, joined)
    assert [c.rule for c in less] == [c.rule for c in more]
    assert all(m.utilisation >= s.utilisation * (1 - 1e-12) for s, m in zip(less, more, strict=True))


@given(forces, st.sampled_from([SCREWED, SEATED]), st.floats(15, 40), st.floats(1, 2))
def test_fasteners_farther_apart_are_never_weaker(force, corner, apart_mm, factor):
    near, far = (replace(corner, apart_mm=apart) for apart in (apart_mm, factor * apart_mm))
    pairs = zip(fastener_loads(near, force), fastener_loads(far, force), strict=True)
    assert all(wider <= narrow * (1 + 1e-12) for narrow, wider in pairs)


def test_a_tilt_is_a_couple_of_both_screws_in_the_upright():
    """5 N m over 25 mm between them: 200 N each, up and down; square to 300/2 N along the rail."""
    force = CornerForce("by hand", 0.0, 300.0, tilt_nmm=5000.0)
    assert fastener_loads(SCREWED, force) == pytest.approx((250.0, 0.0))


def test_what_goes_across_turns_the_screws_for_they_sit_away_from_the_corner():
    """100 N, 27.5 mm from the middle of both, couple over 25 mm: 50 + 110 N."""
    assert fastener_loads(SCREWED, CornerForce("by hand", 100.0)) == pytest.approx((160.0, 0.0))


def test_a_twist_pulls_both_screws_with_half_the_clip_as_lever():
    """1.6 N m over 8 mm is 200 N, of two."""
    assert fastener_loads(SCREWED, CornerForce("by hand", 0.0, twist_nmm=1600.0)) == pytest.approx(
        (0.0, 100.0)
    )


def test_a_turn_pries_the_leg_off_about_its_toe():
    """Toe 50 mm from the end, screws at 35 and 10 mm of it: pulls as 3.5 to 1 whose moments make 2 N m."""
    turned = fastener_loads(SCREWED, CornerForce("by hand", 0.0, turn_nmm=2000.0))[1]
    assert turned * 35 + turned / 3.5 * 10 == pytest.approx(2000.0)
    apart = fastener_loads(SCREWED, CornerForce("by hand", 0.0, apart_n=40.0))[1]
    assert apart == pytest.approx(turned)


def test_in_the_seat_the_turn_shears_and_the_tilt_pries():
    """Screws at 40 and 65 mm, toe at 75 mm."""
    sheared = fastener_loads(SEATED, CornerForce("by hand", 0.0, apart_n=100.0, turn_nmm=4000.0))
    assert sheared == pytest.approx((50.0 + 100 * 52.5 / 25 + 160.0, 0.0))
    pried = fastener_loads(SEATED, CornerForce("by hand", 20.0, tilt_nmm=500.0, twist_nmm=160.0))
    assert pried == pytest.approx((0.0, (20 * 75 + 500) * 35 / 1325 + 10.0))


def test_a_seat_is_screwed_farther_in_by_what_its_cut_takes_off():
    thin, thick = USUAL["stainless"], cut_clip("thick", "aluminium", 30.0, 8.0)
    assert corner_from_end_mm(Band("upright", 12.0, 38.0), thin) == 15.0
    assert corner_from_end_mm(Band("upright", 12.0, 38.0), thick) == 20.0
    assert corner_from_end_mm(Band("seat", 20.0, 30.0), thin) == 45.0


def test_a_hole_in_a_seat_is_as_far_from_its_cut_end_as_in_an_upright():
    """40 mm from the rail's end, but 15 from where a lapped seat is cut back."""
    edge = judge_fastened(replace(SEATED, edge_mm=30.0), (), "EN")[-1]
    assert (edge.rule, edge.limit) == ("corner fastener clear of the edge", 15.0)


def test_shares_of_shear_and_pull_are_summed():
    force = CornerForce("by hand", 0.0, 400.0, turn_nmm=2000.0)
    shear, pull, both, edge = judge_fastened(SCREWED, (force,), "EN")
    assert both.demand == pytest.approx(shear.utilisation + pull.utilisation)
    assert both.limit == 1.0
    assert edge.demand == pytest.approx(1.2 * 5.5)


def test_a_rivet_that_is_pulled_is_not_covered_by_asce():
    riveted = replace(SCREWED, fastener=FASTENERS["rivet 4.8 stainless"])
    force = CornerForce("by hand", 100.0, turn_nmm=100.0)
    checks = {check.rule: check for check in judge_fastened(riveted, (force,), "ASCE")}
    assert not checks["corner blind rivet 4.8 mm, stainless pulled, by hand"].covered
    assert not checks["corner blind rivet 4.8 mm, stainless sheared and pulled, by hand"].covered
    assert checks["corner blind rivet 4.8 mm, stainless in shear, by hand"].passed


def test_an_alloy_that_the_family_does_not_list_has_no_corner():
    strange = replace(RAIL, alloy="6060-T66")
    force = CornerForce("in wind and snow", 300.0, twist_nmm=900.0)
    assert not judge_fastened(replace(SCREWED, rail=strange), (force,), "ASCE")[0].covered
    assert not judge_welded(strange, (force,), "ASCE")[0].covered


def test_a_weld_by_hand():
    """600 N over 38.1 x 0.7 x 3.175 mm of throat; 10 N m on its section; root of s^2 + 3 t^2."""
    throat = 0.7 * 3.175
    shear, bent = 600 / (38.1 * throat), 6 * 10_000 / (throat * 38.1**2)
    force = CornerForce("by hand", 600.0, tilt_nmm=10_000.0)
    assert weld_stress_mpa(RAIL, force) == pytest.approx(math.sqrt(bent**2 + 3 * shear**2))
    assert softened_stress_mpa(RAIL, CornerForce("by hand", 0.0, 231.854)) == pytest.approx(1.0, rel=1e-5)


def test_a_weld_twisted_by_hand():
    """2 N m: an open throat as any thin strip, 3 T over seam and throat squared; a tube closed, T / 2 A a."""
    force, throat = CornerForce("by hand", 0.0, twist_nmm=2000.0), 0.7 * 3.175
    line = 38.1 * (1 + math.sqrt(2))
    assert twisted_mpa(RAIL, force) == pytest.approx(3 * 2000 / (line * throat**2))
    assert weld_stress_mpa(RAIL, force) == pytest.approx(math.sqrt(3) * twisted_mpa(RAIL, force))
    assert twisted_mpa(TUBE, force) == pytest.approx(2000 / (2 * 900 * math.sqrt(2) * 1.4))


def test_a_weld_sheared_across_and_apart_by_hand():
    """300 N on the upright's 38.1 mm and 400 N on the seat's mitre, at right angles."""
    throat, mitre = 0.7 * 3.175, math.sqrt(2) * 38.1
    sheared = math.hypot(300 / 38.1, 400 / mitre) / throat
    stress = weld_stress_mpa(RAIL, CornerForce("by hand", 300.0, apart_n=400.0))
    assert stress == pytest.approx(math.sqrt(3) * sheared)


def test_in_wind_and_snow_each_rail_is_joined_for_its_own_figures():
    rail = AtCorner(Force(along_n=1.0, sideways_n=2.0, across_n=3.0), 4.0, 5.0, 6.0)
    force = CornerForce("in wind and snow, long rail", 3.0, 1.0, 2.0, 4.0, 5.0, 6.0)
    assert weather_force("long", rail) == force


def test_a_panel_of_20_kg_in_the_hands():
    assert carried_n(20.0, "ASCE") == pytest.approx(392.27, abs=0.01)
    assert carried_n(20.0, "EN") == pytest.approx(1.35 * 392.27, abs=0.01)
    assert lifted_force(20.0, "ASCE").shear_n == pytest.approx(196.13, abs=0.01)
    assert standing_force(20.0, 400.0, 300.0, "ASCE").pull_n == pytest.approx(0.8 * 392.27, abs=0.01)


def test_a_force_of_no_size_is_refused():
    with pytest.raises(ValueError, match="size"):
        CornerForce("wrong", -1.0)
