"""How many people carry a panel."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.rail import Rail
from panewright.glass.pane import Pane, Sheet
from panewright.seal.sealant import Bead, Sealant
from panewright.structure.carrying import carriers
from panewright.structure.drilling.frame_plan import plan_frame
from panewright.structure.rails.rails import Brackets

GLASS = Sheet("tempered 4", "glass", "tempered", "plain", 4.0, 3.78, 2500, 9e-6, 0.9)
BEAD = Bead(Sealant("glazing silicone", 138e3, 7e3, 0.25, 300, structural=True), 8.0, 6.0, 5.0)
RAIL = Rail("L38", "angle", 38.1, 38.1, 3.175, "6063-T6", 6000)


def framed(long_mm, short_mm):
    return plan_frame(Pane(long_mm, short_mm, GLASS), BEAD, RAIL, Brackets(2, 100.0))


@pytest.mark.parametrize(
    ("long_mm", "short_mm", "mass_kg", "people"),
    [
        (1200, 600, 12, 1),
        (1200, 600, 23, 1),
        (1200, 600, 24, 2),
        (1900, 600, 12, 2),
        (1200, 1000, 12, 2),
        (1200, 600, 50, 3),
    ],
)
def test_mass_length_and_width_each_call_a_second_pair_of_hands(long_mm, short_mm, mass_kg, people):
    assert carriers(framed(long_mm, short_mm), mass_kg) == people


@given(st.floats(400, 2200), st.floats(0.3, 1.0), st.floats(1, 60), st.floats(1, 2))
def test_a_heavier_panel_never_takes_fewer(long_mm, share, mass_kg, factor):
    frame = framed(long_mm, long_mm * share)
    assert carriers(frame, mass_kg * factor) >= carriers(frame, mass_kg) >= 1
