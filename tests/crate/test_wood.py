"""What the wood of a crate bears: beams by hand, and the first section that does."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.crate.timber import (
    PLY_MPA,
    YARDS,
    Board,
    Section,
    bending_mpa,
    ply_mpa,
    ply_span_mm,
)


def test_a_beam_by_hand():
    # 45 x 70 upright: 36 750 mm3; 100 N m bend it by 2.72 MPa
    assert Section(45.0, 70.0).modulus_mm3 == pytest.approx(36750.0)
    assert bending_mpa(1e5, Section(45.0, 70.0)) == pytest.approx(2.721, abs=5e-4)


@given(st.floats(0.001, 0.05), st.floats(3.0, 20.0))
def test_plywood_spans_as_far_as_it_bears(pressure, thick):
    assert ply_mpa(pressure, ply_span_mm(pressure, thick), thick) == pytest.approx(PLY_MPA)


def test_a_board_weighs_what_its_size_says():
    assert Board("floor", "plywood", 1000.0, 500.0, 10.0, 2).mass_kg() == pytest.approx(6.0)
    assert Board("batten", "softwood", 1000.0, 50.0, 20.0, 4).mass_kg() == pytest.approx(1.8)
    assert Board("pad", "foam", 100.0, 100.0, 50.0, 8).mass_kg(30.0) == pytest.approx(0.12)


@pytest.mark.parametrize("units", ["metric", "us"])
def test_sections_of_a_yard_come_from_the_weaker_to_the_stronger(units):
    for row in (YARDS[units].sills, YARDS[units].lid):
        moduli = [section.modulus_mm3 for section in row]
        assert moduli == sorted(moduli)
