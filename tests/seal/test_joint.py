"""Laws of beads."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.seal.joint import gap_mm, shear_glue_line_mm, suction_bite_mm
from panewright.seal.quantity import bead_volume_ml, cartridges
from panewright.seal.sealant import Bead, Sealant

SILICONE = Sealant("silicone", 138e3, 7e3, 0.25, 300, structural=True)
positive = st.floats(0.01, 1e4)


@given(positive, st.floats(1.0, 3.0))
def test_more_suction_needs_at_least_as_much_bite(suction_pa, factor):
    assert suction_bite_mm(factor * suction_pa, 800, 138e3) >= suction_bite_mm(suction_pa, 800, 138e3)


@given(st.floats(0.01, 20), st.floats(0.05, 1.0))
def test_a_glue_line_sheared_by_its_slip_stretches_by_its_movement_class(slip_mm, movement):
    thick = shear_glue_line_mm(slip_mm, movement)
    assert (slip_mm**2 + thick**2) ** 0.5 / thick == pytest.approx(1 + movement)


@given(st.floats(0.01, 20), st.floats(0.05, 0.5), st.floats(0, 3))
def test_a_gap_less_its_tolerance_changes_by_its_movement_class(change_mm, movement, tolerance_mm):
    width = gap_mm(change_mm, movement, tolerance_mm)
    assert change_mm / (width - tolerance_mm) == pytest.approx(movement)


def test_volume_is_rim_and_gap():
    bead = Bead(SILICONE, 8.0, 6.0, 5.0)
    rim = (1600 * 1000 - 1584 * 984) * 6
    beside = (1610 * 1010 - 1600 * 1000) * (6 + 4)
    assert bead_volume_ml(bead, 1600, 1000, 4.0) == pytest.approx((rim + beside) / 1000)


@given(st.floats(1, 3000), st.integers(1, 50))
def test_cartridges_cover_the_volume_and_not_one_more(volume_ml, panels):
    count = cartridges(volume_ml, Bead(SILICONE, 8.0, 6.0, 5.0), panels)
    assert count * 300 >= panels * volume_ml * 1.1 * (1 - 1e-9) > (count - 1) * 300 * (1 - 1e-6)
