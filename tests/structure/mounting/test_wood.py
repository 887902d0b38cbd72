"""Screws in timber: each family with its own, factors by how long a load lasts, and laws."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.support.bracket import Bracket
from panewright.frame.support.timber import timber
from panewright.frame.support.wood_screw import WoodScrew
from panewright.structure.mounting.forces import BracketForces
from panewright.structure.mounting.timber.wood import Screwed, judge_wood, pull_limit_n, side_limit_n

COACH = WoodScrew("coach 8 x 80", "coach screw", 8.0, 80.0)
LAG = WoodScrew("lag 5/16 x 3", "lag screw", 7.9375, 76.2)
BOLT = WoodScrew("bolt 8 x 130", "bolt", 8.0, 130.0)
ANGLE = Bracket("b", 40.0, 6.0, 40.0, "6063-T6")
FORCES = BracketForces(up_n=600.0, down_n=550.0, along_n=35.0, along_snow_n=200.0, along_rest_n=47.0)


def joint(screw=COACH, species="C24", *, family="EN", screws=1, wet=True, depth_mm=100.0):
    return Screwed(family, ANGLE, screw, screws, timber(species), wet, depth_mm, 100.0)


LAGGED = joint(LAG, "spruce-pine-fir", family="ASCE")


def checks(made, forces=FORCES):
    return {check.rule: check for check in judge_wood(made, forces)}


def test_a_sound_joint_holds_in_both_families():
    assert all(check.passed for check in judge_wood(joint(), FORCES))
    assert all(check.passed for check in judge_wood(LAGGED, FORCES))


def test_a_known_screw_needs_no_word_about_it():
    assert "screw and timber known to the rule book" not in checks(joint())


def test_families_are_never_mixed():
    for made in (
        joint(LAG),
        joint(COACH, "spruce-pine-fir"),
        joint(COACH, "spruce-pine-fir", family="ASCE"),
        joint(LAG, "C24", family="ASCE"),
    ):
        found = checks(made)
        assert not found["screw and timber known to the rule book"].covered
        assert not found["screws pulled out of the timber"].covered
        assert not found["screws pulled and pushed, wind"].covered


def test_en_pull_by_hand():
    """48 mm of thread: 0.52 / sqrt 8 x 48^-0.1 x 350^0.8 x 8 x 48 N, times 0.7 / 1.3 of wind on wet wood."""
    strength = 0.52 * 8**-0.5 * 48**-0.1 * 350**0.8
    assert pull_limit_n(joint(), "wind") == pytest.approx(strength * 8 * 48 * 0.7 / 1.3)
    assert pull_limit_n(joint(wet=False), "wind") == pytest.approx(strength * 8 * 48 * 0.9 / 1.3)


def test_asce_pull_by_hand():
    """Thread 2 in less the tip of 3/16 in: 205 lb/in in spruce-pine-fir (table 12.2A), C_D 1.6, C_M 0.7."""
    pounds = 205 * (2 - 3 / 16) * 1.6 * 0.7
    assert pull_limit_n(LAGGED, "wind") / 4.44822 == pytest.approx(pounds, rel=3e-3)


def test_long_loads_are_borne_less():
    for made in (joint(), LAGGED):
        by_time = [side_limit_n(made, lasting) for lasting in ("own weight", "snow", "wind")]
        assert by_time == sorted(by_time)
        assert by_time[0] < by_time[-1]


def test_two_screws_of_a_short_bracket_stand_too_near():
    assert not checks(joint(screws=2))["screws apart on the bracket"].passed
    assert "screws apart on the bracket" not in checks(joint())


def test_lengths_are_looked_at():
    assert not checks(joint(WoodScrew("s", "coach screw", 8.0, 50.0)))[
        "screw deep enough in the timber"
    ].passed
    assert not checks(joint(depth_mm=60.0))["screw's way within the timber"].passed
    assert not checks(joint(depth_mm=90.0))["timber thick enough for the screw"].passed
    assert not checks(joint(replace(BOLT, length_mm=110.0)))["bolt long enough for the timber"].passed


def test_a_bolt_is_held_by_its_washer():
    """Washer 24 mm on a hole of 9 mm: EN 3 x 2.5 MPa x 388.8 mm2 x 0.7 / 1.3; ASCE 425 psi x 0.67, no C_D."""
    area = 0.7853981634 * (24**2 - 9**2)
    assert pull_limit_n(joint(BOLT), "wind") == pytest.approx(3 * 2.5 * area * 0.7 / 1.3)
    american = joint(BOLT, "spruce-pine-fir", family="ASCE")
    assert pull_limit_n(american, "wind") == pytest.approx(425 * 0.00689476 * 0.67 * area, rel=1e-5)
    assert all(check.passed for check in judge_wood(joint(BOLT), FORCES))


@given(st.floats(10, 3000), st.floats(1, 3), st.booleans())
def test_more_lift_never_needs_less_screw(up_n, factor, american):
    made = LAGGED if american else joint()
    less, more = (checks(made, replace(FORCES, up_n=up)) for up in (up_n, up_n * factor))
    assert all(more[rule].utilisation >= less[rule].utilisation for rule in less)


@given(st.floats(50, 95), st.floats(1, 10), st.booleans())
def test_a_longer_screw_never_holds_less(length_mm, more_mm, american):
    base = LAGGED if american else joint()
    short = replace(base, screw=replace(base.screw, length_mm=length_mm))
    long = replace(base, screw=replace(base.screw, length_mm=length_mm + more_mm))
    assert pull_limit_n(long, "wind") >= pull_limit_n(short, "wind")
    assert side_limit_n(long, "wind") >= side_limit_n(short, "wind") * (1 - 1e-9)


@given(st.sampled_from(["C16", "C18", "C24"]), st.sampled_from(["C24", "C30"]))
def test_denser_timber_never_holds_less(light, dense):
    assert pull_limit_n(joint(species=dense), "wind") >= pull_limit_n(joint(species=light), "wind")
    assert side_limit_n(joint(species=dense), "wind") >= side_limit_n(joint(species=light), "wind")


@pytest.mark.parametrize("diameter", [4.0, 5.9, 12.1, 16.0])
def test_en_pull_of_a_screw_outside_6_to_12_mm_has_no_closed_formula(diameter):
    made = joint(WoodScrew("s", "coach screw", diameter, 160.0), depth_mm=250.0)
    found = checks(made)["screws pulled out of the timber"]
    assert not found.covered
    assert "(5) asks" in found.source
    assert not checks(made)["screws pulled and pushed, wind"].covered
    assert checks(joint())["screws pulled out of the timber"].covered


def test_a_foot_presses_as_wide_as_its_wall_bends():
    """C24 wet in wind 2.5 x 0.7 / 1.3 MPa; 6 mm of 6063-T6, 160 / 1.1 MPa: 6 + 36 mm, past the leg of 40."""
    rule = "timber pressed by the bracket's foot"
    across = 2.5 * 0.7 / 1.3
    assert checks(joint())[rule].limit == pytest.approx(across * 40 * 40)
    thin = replace(joint(), bracket=replace(ANGLE, wall_mm=3.0))
    spread = 3 + 3 * (160 / 1.1 / (3 * across)) ** 0.5
    assert checks(thin)[rule].limit == pytest.approx(across * spread * 40)
    assert checks(joint())[rule].demand == pytest.approx(550 + 200 * 20 / 18)


def test_a_foot_on_american_timber_has_no_factor_of_time():
    """425 psi of spruce-pine-fir, 0.67 wet; the bracket's 172 / 1.65 MPa spread it over 6 + 25 mm."""
    across = 425 * 0.006894757 * 0.67
    spread = 6 + 6 * (172 / 1.65 / (3 * across)) ** 0.5
    assert checks(LAGGED)["timber pressed by the bracket's foot"].limit == pytest.approx(
        across * spread * 40, rel=1e-6
    )


def test_a_foot_on_the_other_family_s_timber_is_not_covered():
    made = joint(COACH, "spruce-pine-fir")
    assert not checks(made)["timber pressed by the bracket's foot"].covered


def test_a_hard_wind_crushes_the_timber_under_the_foot():
    found = checks(joint(), replace(FORCES, down_n=5000.0))["timber pressed by the bracket's foot"]
    assert not found.passed


@given(st.floats(0, 2000), st.sampled_from(["up", "down", "snow", "rest"]), st.booleans())
def test_a_rail_pushing_sideways_never_needs_less(push_n, way, american):
    made = LAGGED if american else joint()
    more = checks(made, replace(FORCES, **{f"sideways_{way}_n": push_n}))
    less = checks(made)
    assert all(more[rule].utilisation >= less[rule].utilisation * (1 - 1e-9) for rule in less)
