"""No screw of a crate comes out at the far side, and every joint has one that holds."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from panewright.crate.screws import HOLDS, INSIDE_MM, screw_for
from panewright.crate.timber import YARDS

MEASURES = st.sampled_from(["metric", "us"])


@given(MEASURES, st.floats(3.0, 200.0), st.floats(10.0, 200.0))
def test_a_screw_goes_through_the_first_piece_and_stays_in_the_second(units, through, into):
    found = screw_for(YARDS[units], through, into)
    if found is None:  # the longest does not reach through, or the shortest comes out
        assert all(
            each.long_mm <= through or each.long_mm > through + into - INSIDE_MM
            for each in YARDS[units].screws
        )
        return
    assert through < found.long_mm <= through + into - INSIDE_MM


@given(MEASURES, st.floats(3.0, 80.0))
def test_in_thick_wood_it_holds_with_six_diameters(units, through):
    """EN 1995-1-1, 8.7.2 (recalled)."""
    found = screw_for(YARDS[units], through, 200.0)
    assert found.long_mm - through >= HOLDS * found.wide_mm
