"""Laws of screws, tapping screws and rivets in walls."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.joining import rivet, tapping
from panewright.frame.joining.fastener import (
    FASTENERS,
    Grip,
    least_edge_mm,
    pull_limit_n,
    rule_source,
    shear_limit_n,
)
from panewright.frame.joining.rivet import Rivet
from panewright.frame.joining.screw import head_n, metric_screw, shear_n, tension_n, wall_bearing_n
from panewright.frame.joining.wall import Wall, aluminium_wall, stainless_wall

families = st.sampled_from(["ASCE", "EN"])
kinds = st.sampled_from(sorted(FASTENERS))
walls = st.builds(Wall, st.floats(1.6, 3.1), st.just(160.0), st.just(200.0))


def grip(wall_mm=3.0, edge_mm=15.0, family="EN"):
    return Grip(aluminium_wall("6063-T6", wall_mm, family), stainless_wall(2.0), edge_mm)


def at_most(less, more):
    """A limit that is not known neither rises nor falls."""
    return less is None or more is None or less <= more * (1 + 1e-12)


@given(kinds, walls, walls, st.floats(7, 40), st.floats(0, 10), families)
def test_a_hole_farther_from_the_edge_never_bears_less(kind, near, far, edge_mm, more_mm, family):
    one, other = Grip(near, far, edge_mm), Grip(near, far, edge_mm + more_mm)
    assert at_most(*(shear_limit_n(FASTENERS[kind], each, family) for each in (one, other)))


@given(kinds, walls, st.floats(0, 1), st.floats(7, 40), families)
def test_thicker_walls_never_bear_less(kind, wall, more_mm, edge_mm, family):
    thick = replace(wall, thickness_mm=wall.thickness_mm + more_mm)
    for limit_n in (shear_limit_n, pull_limit_n):
        grips = (Grip(wall, wall, edge_mm), Grip(thick, thick, edge_mm))
        assert at_most(*(limit_n(FASTENERS[kind], each, family) for each in grips))


@given(walls, walls, families, st.floats(2.0, 4.0))
def test_a_bigger_fastener_is_never_weaker_far_from_edges(near, far, family, edges):
    held = Grip(near, far, edges * 12.0)
    sizes = [FASTENERS[name] for name in ("screw M4", "screw M5", "screw M6")]
    rivets = [Rivet("stainless", size) for size in (3.2, 4.0, 4.8)]
    for row in (sizes, rivets):
        assert all(
            at_most(shear_limit_n(less, held, family), shear_limit_n(more, held, family))
            for less, more in pairwise(row)
        )
    pulls = [pull_limit_n(each, held, family) for each in sizes]
    assert pulls == sorted(pulls)


@given(kinds, families)
def test_every_fastener_names_its_rule_and_its_edge(kind, family):
    assert rule_source(FASTENERS[kind], family)
    assert FASTENERS[kind].diameter_mm < least_edge_mm(FASTENERS[kind], family) < 20.0


def test_a_screw_in_en_by_hand():
    """M5 A2-70 in 3 mm of 6063-T6, 15 mm from the edge: 14.18 mm2, e/3d0 = 0.909."""
    wall = aluminium_wall("6063-T6", 3.0, "EN")
    screw = FASTENERS["screw M5"]
    assert shear_n(screw, "EN") == pytest.approx(0.5 * 700 * 14.183 / 1.25, rel=1e-3)
    assert wall_bearing_n(screw, wall, 15.0, "EN") == pytest.approx(2.5 * 15 / 16.5 * 195 * 5 * 3 / 1.25)
    assert tension_n(screw, "EN") == pytest.approx(0.9 * 700 * 14.183 / 1.25, rel=1e-3)
    assert head_n(screw, wall, "EN") == pytest.approx(0.6 * math.pi * 10 * 3 * 195 / 1.25)


def test_a_screw_in_asce_by_hand():
    wall = aluminium_wall("6063-T6", 3.175, "ASCE")
    screw = metric_screw(5.0, 0.8, 5.5, 10.0)
    assert shear_n(screw, "ASCE") == pytest.approx(0.6 * 700 * 14.183 / 2.34, rel=1e-3)
    assert wall_bearing_n(screw, wall, 15.0, "ASCE") == pytest.approx(10 * 3.175 * 207 / 1.95)
    assert head_n(screw, wall, "ASCE") == pytest.approx((10 + 1.7 * 3.175) * 3.175 * 172 / 3.0)


def test_a_tapping_screw_tilts_out_of_a_thin_wall_before_it_bears():
    """3.4.2: 2.5 sqrt(t^3 d) fu in two walls alike, 1.5 t d fu on one more than 2.5 times as thick."""
    thin, thick = Wall(1.0, 160.0, 200.0), Wall(3.0, 160.0, 200.0)
    alike = tapping.thin_sheet_bearing_n(6.0, thin, thin)
    backed = tapping.thin_sheet_bearing_n(6.0, thin, thick)
    assert alike == pytest.approx(2.5 * math.sqrt(6.0) * 200 / 1.25)
    assert backed == pytest.approx(1.5 * 6 * 200 / 1.25)
    assert tapping.tilting_n(6.0, thin) == pytest.approx(4.2 * math.sqrt(6.0) * 200)


def test_no_more_than_260_mpa_of_a_wall_counts_in_thin_sheet():
    soft, hard = Wall(2.0, 160.0, 260.0), Wall(2.0, 160.0, 400.0)
    assert tapping.thin_sheet_bearing_n(5.5, soft, soft) == tapping.thin_sheet_bearing_n(5.5, hard, hard)


@pytest.mark.parametrize(("wall_mm", "share"), [(1.6, 1.01), (2.1, 1.2), (3.1, 1.2)])
def test_a_thread_cut_into_the_far_wall_by_hand(wall_mm, share):
    screw, wall = FASTENERS["tapping screw 5.5"], Wall(wall_mm, 172.0, 207.0)
    assert tapping.pull_out_n(screw, wall, "ASCE") == pytest.approx(share * 5.5 * wall_mm * 172 / 3)


def test_what_a_family_has_no_rule_for_has_no_limit():
    thick = Wall(6.0, 172.0, 207.0)
    screw = FASTENERS["tapping screw 5.5"]
    assert tapping.pull_out_n(screw, thick, "ASCE") is None
    assert pull_limit_n(screw, grip(), "EN") is None
    small = replace(screw, diameter_mm=4.8)
    assert shear_limit_n(small, grip(), "EN") is None
    assert shear_limit_n(small, grip(family="ASCE"), "ASCE") is not None
    assert pull_limit_n(Rivet("stainless", 4.8), grip(family="ASCE"), "ASCE") is None
    assert aluminium_wall("6060-T66", 3.0, "ASCE") is None


def test_an_aluminium_rivet_by_hand():
    assert rivet.shear_n(Rivet("aluminium", 4.8), "EN") == pytest.approx(38 * 4.8**2 / 1.25)
    assert rivet.shear_n(Rivet("aluminium", 4.8), "ASCE") == pytest.approx(1200 / 2.34)
    assert rivet.pull_n(Rivet("aluminium", 4.8), "EN") == pytest.approx(47 * 4.8**2 / 1.25)


def test_a_rivet_of_a_size_that_nobody_lists_is_refused():
    with pytest.raises(ValueError, match="listed"):
        Rivet("aluminium", 5.1)
    with pytest.raises(ValueError, match="wall"):
        Wall(0.0, 1.0, 1.0)
