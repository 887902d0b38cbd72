"""Laws of conductors."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.wire.ampacity import ampacity_a, fuse_check, gauge_of, lead_check
from panewright.wire.cable import Cable
from panewright.wire.drop import drop_check, drop_v, ohm_per_m, resistance_ohm
from panewright.wire.sizes import GAUGES, METRIC, awg_area_mm2, size_of

areas = st.floats(0.3, 80.0)


@given(areas)
def test_no_wire_resists_less_than_its_area_of_pure_copper(area):
    assert ohm_per_m(area) * area * 1e-6 >= 1.724e-8 * 0.999


@given(areas)
def test_an_area_that_is_no_size_is_taken_on_the_safe_side(area):
    named = max(size.ohm_per_m * size.area_mm2 for size in METRIC)
    assert ohm_per_m(area) * area <= named * 1.0101


@pytest.mark.parametrize("size", [*METRIC, *GAUGES], ids=lambda size: size.name)
def test_every_size_finds_itself(size):
    assert size_of(size.area_mm2) is size


@given(st.floats(0.0, 50.0), areas, st.floats(0.0, 30.0), st.floats(-20.0, 90.0))
def test_drop_is_current_times_resistance(one_way, area, current, temperature):
    cable = Cable(one_way, area)
    assert drop_v(cable, current, temperature) == pytest.approx(current * resistance_ohm(cable, temperature))


def test_a_long_thin_run_fails_and_a_thick_one_holds():
    assert not drop_check(Cable(10.0, 1.5), 8.0, 17.0).passed
    assert drop_check(Cable(10.0, 10.0), 8.0, 17.0).passed


@given(areas, st.floats(-10, 85), st.floats(-10, 85))
def test_no_wire_carries_more_in_warmer_air(area, one_c, other_c):
    cool, warm = (ampacity_a(area, t) for t in sorted((one_c, other_c)))
    assert (cool is None and warm is None) or warm <= cool


def test_metric_sizes_count_as_the_next_smaller_gauge():
    assert [gauge_of(area) for area in (0.5, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0)] == [
        None,
        "18",
        "16",
        "14",
        "12",
        "10",
        "8",
    ]


def test_hair_thin_leads_are_not_covered_rather_than_passed():
    assert lead_check(0.5, 0.1, 30.0).verdict == "NOT COVERED"
    assert fuse_check(0.5, 1.0).verdict == "NOT COVERED"


def test_leads_too_thin_for_the_heat_fail():
    assert lead_check(2.5, 9.0, 30.0).passed
    assert not lead_check(2.5, 9.0, 80.0).passed


@pytest.mark.parametrize("words", ["10 AWG", "AWG 10", "10"])
def test_a_gauge_may_be_written_in_three_ways(words):
    assert awg_area_mm2(words) == pytest.approx(5.26115495)


@pytest.mark.parametrize("words", ["4 mm2", "1/1", "", "-2"])
def test_what_is_no_gauge_is_refused(words):
    with pytest.raises(ValueError, match="no wire gauge"):
        awg_area_mm2(words)


def test_a_cable_without_copper_is_refused():
    with pytest.raises(ValueError, match="some copper"):
        Cable(5.0, 0.0)
