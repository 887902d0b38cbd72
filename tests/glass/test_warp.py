"""Plastic sheet that swells and bows: against Prandtl's membrane, and the laws of thin and thick."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.glass.pane import Pane, Sheet
from panewright.glass.warp import damp_growth, held_flat, one_face_damp, one_face_warm, swelling


def pane(thickness_mm=5.0, long_mm=1200.0, short_mm=550.0, material="acrylic"):
    sheet = Sheet("x", material, "none", "plain", thickness_mm + 0.5, thickness_mm, 1190.0, 7.2e-5, 0.9)
    return Pane(long_mm, short_mm, sheet)


@pytest.mark.parametrize(
    ("aspect", "slope"), [(1.0, 0.675), (1.5, 0.848), (2.0, 0.930), (3.0, 0.985), (10.0, 1.0)]
)
def test_the_edge_turns_as_a_twisted_bar_is_sheared(aspect, slope):
    """S. Timoshenko, J. N. Goodier, Theory of Elasticity: greatest shear of a bar in torsion (recalled)."""
    assert 2 * held_flat(aspect)[1] == pytest.approx(slope, abs=6e-4)


def test_a_long_sheet_held_flat_rises_as_a_strip():
    assert held_flat(8.0)[0] == pytest.approx(1 / 8, rel=1e-4)


def test_swelling_is_the_supplier_s_and_a_fifth_of_it_in_polycarbonate():
    assert [swelling("acrylic", each) for each in (60.0, 80.0, 100.0)] == [0.002, 0.003, 0.006]
    assert swelling("polycarbonate", 100.0) == pytest.approx(0.0012)
    assert damp_growth("acrylic") == pytest.approx(0.003 - 0.002 * 50 / 60)
    with pytest.raises(ValueError, match="between 0 and 100"):
        swelling("acrylic", 101.0)


def test_a_sheet_of_half_the_thickness_bows_twice_as_far_by_damp_and_as_far_by_heat():
    thin, thick = pane(2.5), pane(5.0)
    assert one_face_damp(thin).free_mm == pytest.approx(2 * one_face_damp(thick).free_mm)
    assert one_face_damp(thin).held_mm == pytest.approx(2 * one_face_damp(thick).held_mm)
    assert one_face_warm(thin).held_mm == one_face_warm(thick).held_mm


def test_bow_of_a_free_sheet_is_the_curvature_times_the_square_of_its_length_over_eight():
    warp = one_face_damp(pane(5.0))
    assert warp.curvature_per_m == pytest.approx(damp_growth("acrylic") / 0.005)
    assert warp.free_mm == pytest.approx(warp.curvature_per_m * 1.2**2 / 8 * 1000)


@given(st.floats(1.0, 10.0), st.floats(1.0001, 3.0))
def test_a_longer_sheet_rises_no_less(aspect, times):
    (middle, edge), (more, more_edge) = held_flat(aspect), held_flat(aspect * times)
    assert middle <= more * (1 + 1e-12) <= 1 / 8 * (1 + 1e-9)
    assert edge <= more_edge * (1 + 1e-12) <= 1 / 2 * (1 + 1e-9)


def test_glass_does_not_warp_and_a_short_side_is_the_shorter():
    glass = Pane(1200, 550, Sheet("g", "glass", "tempered", "plain", 4.0, 3.8, 2500.0, 9e-6, 0.9))
    with pytest.raises(ValueError, match="neither swells"):
        one_face_damp(glass)
    with pytest.raises(ValueError, match="at least 1"):
        held_flat(0.5)
