"""How far metal reaches under the pane, and what a pour covers behind it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.rail import Rail
from panewright.glass.pane import Pane, Sheet
from panewright.seal.sealant import Bead, Sealant
from panewright.structure.rails.seat import poured_mm2, seat_under_pane_mm

ANGLE = Rail("angle 30", "angle", 30, 30, 3, "6060-T66", 6000)
GLASS = Sheet("tempered 4", "glass", "tempered", "plain", 4.0, 3.78, 2500, 9e-6, 0.9)
PANE = Pane(1000.0, 500.0, GLASS)
BEAD = Bead(Sealant("silicone", 138e3, 7e3, 0.25, 300, structural=True), 6.0, 6.0, 5.0)


def test_a_pour_runs_in_under_the_seat_as_far_as_the_bead():
    """3.2 mm deep under a seat 6 mm above the glass: 6 mm of bead all round stay dry, not 22 mm of seat."""
    assert seat_under_pane_mm(ANGLE, 5.0) == 22.0
    assert poured_mm2(PANE, ANGLE, BEAD, 3.2) == pytest.approx(988 * 488)


def test_what_stands_higher_than_the_glue_line_lies_between_the_seats():
    litres = (988 * 488 * 6.0 + 956 * 456 * 2.0) / 8.0
    assert poured_mm2(PANE, ANGLE, BEAD, 8.0) == pytest.approx(litres)


@given(st.floats(0.1, 30.0), st.floats(1.01, 5.0))
def test_a_deeper_pour_takes_more_and_never_more_than_the_pane_inside_the_bead(depth, more):
    shallow, deep = (poured_mm2(PANE, ANGLE, BEAD, each) for each in (depth, depth * more))
    assert depth * shallow < depth * more * deep
    assert 956 * 456 < deep <= shallow * (1 + 1e-9)
    assert shallow <= 988 * 488 * (1 + 1e-9)


def test_a_pour_without_depth_is_our_own_mistake():
    with pytest.raises(ValueError, match="depth"):
        poured_mm2(PANE, ANGLE, BEAD, 0.0)
