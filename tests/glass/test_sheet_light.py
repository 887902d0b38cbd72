"""Laws of a sheet in sunlight, colour by colour."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.glass.light.colours import known_sheet, panes_through, stated, through, thrown_back, tinted
from panewright.glass.light.spectrum import AM15_GLOBAL
from panewright.glass.light.through import surface_reflectance, transmittance
from panewright.glass.pane import Sheet

faces = st.floats(0, 0.5)
MATERIALS = ("glass", "acrylic", "polycarbonate")


def _sheet(material, share, nominal_mm=4.0):
    treatment = "tempered" if material == "glass" else "none"
    return Sheet("sheet", material, treatment, "plain", nominal_mm, nominal_mm, 2500, 9e-6, share)


@given(faces, faces, st.floats(0.1, 1.0))
def test_nothing_is_made_and_without_tint_nothing_lost(outer, inner, kept):
    share = np.array([kept])
    assert through(outer, inner, share)[0] + thrown_back(outer, inner, share)[0] <= 1 + 1e-12
    clear = np.ones(1)
    assert through(outer, inner, clear)[0] + thrown_back(outer, inner, clear)[0] == pytest.approx(
        1, abs=1e-12
    )


def _bounced(outer, inner, kept, bounces=400):
    """Through and back, light followed by hand from face to face."""
    going, gone, back, down = 1 - outer, 0.0, outer, True
    for _ in range(bounces):
        going *= kept
        face = inner if down else outer
        gone, back = (gone + going * (1 - face), back) if down else (gone, back + going * (1 - face))
        going, down = going * face, not down
    return gone, back


@given(faces, faces, st.floats(0.1, 1.0))
def test_the_sums_are_those_of_light_followed_from_face_to_face(outer, inner, kept):
    gone, back = _bounced(outer, inner, kept)
    assert through(outer, inner, np.array([kept]))[0] == pytest.approx(gone, abs=1e-12)
    assert thrown_back(outer, inner, np.array([kept]))[0] == pytest.approx(back, abs=1e-12)


@given(st.floats(1, 10), st.floats(0, 40))
def test_one_extinction_for_all_colours_is_the_textbook_slab(thickness_mm, extinction):
    kept = np.exp(np.full(3, -extinction * thickness_mm / 1000))
    face = surface_reflectance(1.526)
    assert through(face, face, kept) == pytest.approx(transmittance(thickness_mm, extinction), rel=1e-12)


@given(st.sampled_from(MATERIALS), st.floats(0.55, 0.89), st.floats(2, 10))
def test_a_sheet_as_sold_has_the_figure_it_is_sold_by(material, share, nominal_mm):
    light = known_sheet(_sheet(material, share, nominal_mm))
    assert stated(light, material) == pytest.approx(share, abs=1e-9)
    assert light.outer == surface_reflectance(light.index)


@pytest.mark.parametrize("share", [0.93, 0.94, 0.95])
def test_a_sheet_clearer_than_any_bare_one_has_a_coated_face(share):
    light = known_sheet(_sheet("glass", share, 3.2))
    assert light.outer < 0.03
    assert stated(light, "glass") == pytest.approx(share, abs=1e-9)


def test_encapsulant_of_the_same_index_leaves_one_face():
    light = tinted("glass", 3.2, 0.0)
    assert light.faces_only(light.index) == pytest.approx(1 - light.outer)
    assert light.faces_only() == pytest.approx((1 - light.outer) / (1 + light.outer))


@given(st.floats(0.5, 10), st.floats(0, 2))
def test_bonding_never_lets_less_through(thickness_mm, strength):
    light = tinted("glass", thickness_mm, strength)
    assert np.all(light.through(1.41) >= light.through() - 1e-12)


def test_tint_takes_the_green_edge_last():
    kept = tinted("glass", 4.0, 1.0).kept
    nm = AM15_GLOBAL.middle_nm
    assert 490 < nm[int(np.argmax(kept))] < 560


@given(st.integers(1, 4), st.floats(0, 1.5))
def test_more_panes_let_less_through_whatever_their_order(count, strength):
    one, other = tinted("glass", 3.0, strength), tinted("acrylic", 4.0, 1.0)
    alone = panes_through((one,) * count)
    assert np.all(panes_through((one,) * (count + 1)) < alone)
    assert panes_through((one, other)) == pytest.approx(panes_through((other, one)), rel=1e-12)


def test_two_clear_panes_are_four_faces():
    pane = tinted("glass", 3.0, 0.0)
    face = pane.outer
    assert panes_through((pane, pane)) == pytest.approx((1 - face) / (1 + 3 * face), rel=1e-12)
