"""Laws of thin walls: thinner never bears more, curves have no steps, no limit is above the stout one's."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.buckling.flat_wall import FlatWall, flat_walls
from panewright.frame.buckling.tipping import tipping_limit_mpa
from panewright.frame.buckling.wall import asce_wall_mpa, en_share, pressed_limit_mpa
from panewright.frame.metals.aluminium import bending_limit_mpa
from panewright.frame.rail import Rail

ALLOYS = st.sampled_from(["6063-T5", "6063-T6", "6061-T6", "6060-T66"])
HELD = st.sampled_from(["one edge", "both edges"])
LEG = Rail("leg", "angle", 40, 40, 4, "6063-T6", 6000)
BOX = ((0, 0), (30, 0), (30, 3), (3, 3), (3, 20), (23, 20), (23, 42), (0, 42))
HOLE = (((2, 22), (21, 22), (21, 40), (2, 40)),)


@given(st.floats(1, 80), st.floats(1, 2), HELD, ALLOYS, st.floats(100, 260))
def test_a_thinner_wall_never_bears_more(ratio, factor, held, alloy, strength_mpa):
    stout, thin = FlatWall(ratio, held), FlatWall(ratio * factor, held)
    assert asce_wall_mpa(strength_mpa, thin) <= asce_wall_mpa(strength_mpa, stout) * (1 + 1e-9)
    assert en_share(strength_mpa, thin, alloy) <= en_share(strength_mpa, stout, alloy) + 1e-9


@given(st.floats(2, 60), HELD, ALLOYS, st.floats(100, 260))
def test_curves_have_no_steps(ratio, held, alloy, strength_mpa):
    """But for the half of a hundredth by which the elastic curve is off where it takes over."""
    one, other = FlatWall(ratio, held), FlatWall(ratio * 1.0001, held)
    assert asce_wall_mpa(strength_mpa, one) == pytest.approx(asce_wall_mpa(strength_mpa, other), rel=6e-3)
    assert en_share(strength_mpa, one, alloy) == pytest.approx(en_share(strength_mpa, other, alloy), rel=1e-3)


@pytest.mark.parametrize("family", ["ASCE", "EN"])
@pytest.mark.parametrize("profile", ["angle", "channel", "tube"])
def test_stout_walls_bear_all_and_thin_ones_less(family, profile):
    stout = Rail("stout", profile, 30, 30, 6, "6063-T6", 6000)
    thin = Rail("thin", profile, 90, 90, 1.5, "6063-T6", 6000)
    assert pressed_limit_mpa(stout, family) == bending_limit_mpa("6063-T6", family, 6)
    assert pressed_limit_mpa(thin, family) < 0.7 * bending_limit_mpa("6063-T6", family, 1.5)


def test_a_tube_bears_more_than_an_angle_as_thin():
    angle = Rail("angle", "angle", 40, 40, 2, "6063-T6", 6000)
    for family in ("ASCE", "EN"):
        assert pressed_limit_mpa(replace(angle, profile="tube"), family) > pressed_limit_mpa(angle, family)


def test_an_alloy_that_is_not_listed_has_no_limit():
    assert pressed_limit_mpa(replace(LEG, alloy="6060-T66"), "ASCE") is None
    assert tipping_limit_mpa(replace(LEG, alloy="6063-T52"), "EN", 1000.0) is None


def test_walls_of_a_drawn_rail_are_found_in_its_outline():
    line = ((0, 0), (40, 0), (40, 4), (4, 4), (4, 40), (0, 40))
    drawn = Rail("own", "drawn", 40, 40, 4, "6063-T6", 6000, line)
    assert max(wall.slenderness for wall in flat_walls(drawn)) == pytest.approx(10.0)
    assert all(wall.held == "one edge" for wall in flat_walls(drawn))
    assert pressed_limit_mpa(drawn, "EN") <= pressed_limit_mpa(LEG, "EN")


def test_a_drawn_wall_before_a_hole_is_held_at_both_edges():
    box = Rail("box", "drawn", 30, 42, 3, "6063-T6", 6000, BOX, HOLE)
    walls = flat_walls(box)
    thinnest = max((wall for wall in walls if wall.held == "both edges"), key=lambda wall: wall.slenderness)
    assert thinnest.slenderness == pytest.approx(42 / 2)


@given(st.floats(200, 3000), st.floats(1.0, 2.0), st.sampled_from(["ASCE", "EN"]))
def test_a_rail_held_farther_apart_never_tips_later(far_mm, factor, family):
    uneven = Rail("L", "angle", 50, 30, 3, "6063-T6", 6000)
    near, far = (tipping_limit_mpa(uneven, family, apart) for apart in (far_mm, far_mm * factor))
    assert far <= near * (1 + 1e-9)
