"""What a plastic sheet does to the cells on it and the bead round it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.glass.pane import Pane, Sheet
from panewright.glass.warp import damp_growth, one_face_damp, one_face_warm
from panewright.seal.sealant import Bead, Sealant
from panewright.structure.panes.bonded_cells import Carried
from panewright.structure.panes.plastic import cell_strain, plastic_checks

BEAD = Bead(Sealant("silicone", 138e3, 7e3, 0.25, 310.0, structural=True), 12.0, 6.0, 5.0)
POURED = Carried(156.0, 0.2, "silicone pour", 55.0)


def pane(thickness_mm=5.0, material="acrylic", short_mm=550.0):
    sheet = Sheet("cast", material, "none", "plain", thickness_mm + 0.5, thickness_mm, 1190.0, 7.2e-5, 0.9)
    return Pane(1200.0, short_mm, sheet)


def test_glass_has_none_of_these():
    glass = Pane(1200, 550, Sheet("g", "glass", "tempered", "plain", 4.0, 3.8, 2500.0, 9e-6, 0.9))
    assert plastic_checks(glass, POURED, BEAD) == ()
    with pytest.raises(ValueError, match="does not carry"):
        cell_strain(glass, POURED)


def test_a_soft_pour_spares_the_cells_and_film_pulls_them():
    poured, film, loose = (
        cell_strain(pane(), replace(POURED, encapsulation=way))
        for way in ("silicone pour", "film", "air gap")
    )
    assert loose == 0 < poured < film


def test_a_cell_never_follows_further_than_the_sheet_goes():
    sheet = pane()
    bent = max(one_face_damp(sheet).curvature_per_m, one_face_warm(sheet).curvature_per_m) * 1e-4
    free = max(damp_growth("acrylic"), 7.2e-5 * 55.0)
    assert cell_strain(sheet, replace(POURED, encapsulation="film", cell_mm=1e4)) < free + bent


@given(st.floats(20.0, 230.0), st.floats(1.0, 3.0), st.floats(0.0, 90.0), st.floats(0.0, 40.0))
def test_a_larger_cell_or_more_heat_never_pulls_less(cell, times, warmer, more):
    carried = Carried(cell, 0.2, "silicone pour", warmer)
    before = cell_strain(pane(), carried)
    assert cell_strain(pane(), replace(carried, cell_mm=cell * times)) >= before * (1 - 1e-12)
    assert cell_strain(pane(), replace(carried, warmer_k=warmer + more)) >= before * (1 - 1e-12)


@given(st.floats(1.5, 12.0), st.floats(1.01, 3.0))
def test_a_thicker_sheet_turns_its_edge_no_further(thickness, times):
    thin, thick = (plastic_checks(pane(t), POURED, BEAD)[1].demand for t in (thickness, thickness * times))
    assert thick <= thin


def test_thin_acrylic_of_some_size_opens_its_bead_and_a_thick_one_does_not():
    assert not plastic_checks(pane(2.3, short_mm=800.0), POURED, BEAD)[1].passed  # 3 mm as sold
    assert plastic_checks(pane(5.3, short_mm=800.0), POURED, BEAD)[1].passed  # 1/4 in as sold


def test_every_check_names_its_source_and_cure():
    for check in plastic_checks(pane(), POURED, BEAD):
        assert check.cure
        assert "reckoning" in check.source
