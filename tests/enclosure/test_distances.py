"""Laws of the way from live metal to the frame."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.enclosure.creepage import clearance_check, needed_mm

volts = st.floats(0.0, 1600.0)
pollutions, groups = st.sampled_from([1, 2, 3]), st.sampled_from(["I", "II", "III"])


@given(volts, volts, pollutions, groups)
def test_more_voltage_never_needs_less_way(one_v, other_v, pollution, group):
    low, high = sorted((one_v, other_v))
    assert needed_mm(low, pollution, group) <= needed_mm(high, pollution, group)


@given(volts, groups)
def test_dirt_never_shortens_the_way(system_v, group):
    clean, usual, dirty = (needed_mm(system_v, pollution, group) for pollution in (1, 2, 3))
    assert clean <= usual <= dirty


@given(volts, pollutions)
def test_a_surface_that_tracks_never_shortens_the_way(system_v, pollution):
    best, middling, worst = (needed_mm(system_v, pollution, group) for group in ("I", "II", "III"))
    assert best <= middling <= worst


def test_past_the_tables_nothing_is_proven():
    assert clearance_check(100.0, 1500.0).verdict == "NOT COVERED"
    with pytest.raises(ValueError, match="0 to 1600 V"):
        needed_mm(2000.0)


def test_a_hand_laid_margin_of_12_mm_holds_600_v_and_not_1000_v():
    assert clearance_check(12.0, 600.0).passed
    assert not clearance_check(12.0, 1000.0).passed
    assert needed_mm(600.0) <= 12.0 < needed_mm(1000.0)
