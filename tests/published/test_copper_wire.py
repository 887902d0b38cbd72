"""Copper wire by the books.

IEC 60228 class 5 tinned, greatest ohm/km at 20 degC: several public transcriptions, seen.
NEC chapter 9 table 8, uncoated stranded, ohm per 1000 ft at 75 degC: public transcription, seen.
Gauge areas from d = 0.127 mm 92^((36 - n)/39): derived. Voltage drops 2 L R I with these values: derived.
NEC 690.8, tables 310.16 and 310.15(B)(1), 240.4(D): public transcriptions, seen.
"""

import pytest

from panewright.wire.ampacity import ampacity_a, fuse_check, heat_left, lead_check, needed_ampacity_a
from panewright.wire.cable import Cable
from panewright.wire.drop import drop_v, ohm_per_m, resistance_ohm
from panewright.wire.sizes import awg_area_mm2

MM2 = [0.5, 0.75, 1.0, 1.5, 2.5, 4, 6, 10, 16, 25, 35]
OHM_KM = [40.1, 26.7, 20.0, 13.7, 8.21, 5.09, 3.39, 1.95, 1.24, 0.795, 0.565]
AWG = ["18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0"]
OHM_KFT_75C = [7.95, 4.99, 3.14, 1.98, 1.24, 0.778, 0.491, 0.308, 0.245, 0.194, 0.154, 0.122, 0.0967]


@pytest.mark.parametrize(("mm2", "ohm_km"), [*zip(MM2, OHM_KM, strict=True)])
def test_metric_sizes_resist_as_printed(mm2, ohm_km):
    assert 1000 * ohm_per_m(mm2) == pytest.approx(ohm_km, rel=1e-9)


@pytest.mark.parametrize(("gauge", "ohm_kft"), [*zip(AWG, OHM_KFT_75C, strict=True)])
def test_gauge_sizes_resist_as_printed_at_75_c(gauge, ohm_kft):
    assert ohm_per_m(awg_area_mm2(gauge), 75.0) * 304.8 == pytest.approx(ohm_kft, rel=1e-9)


@pytest.mark.parametrize(
    ("gauge", "area_mm2"),
    [(18, 0.823046834), (14, 2.08090772), (10, 5.26115495), (6, 13.3017679), (2, 33.630834), ("2/0", 67.43)],
)
def test_gauge_areas_follow_the_formula(gauge, area_mm2):
    assert awg_area_mm2(gauge) == pytest.approx(area_mm2, rel=1e-4)


@pytest.mark.parametrize(
    ("one_way_m", "area_mm2", "current_a", "temperature_c", "volts"),
    [
        (9.144, 5.26115495, 8.0, 75, 0.5952),
        (10.0, 4.0, 8.0, 20, 0.8144),
        (10.0, 4.0, 8.0, 60, 0.94242368),
        (7.5, 6.0, 17.0, 20, 0.86445),
    ],
)
def test_voltage_drops_are_as_derived(one_way_m, area_mm2, current_a, temperature_c, volts):
    assert drop_v(Cable(one_way_m, area_mm2), current_a, temperature_c) == pytest.approx(volts, rel=1e-8)


@pytest.mark.parametrize(
    ("temperature_c", "kt"), [(5, 1.064), (40, 0.926), (60, 0.862), (75, 0.82), (90, 0.781)]
)
def test_heat_is_counted_as_the_cable_standard_counts_it(temperature_c, kt):
    # the standard rounds its coefficient to 1 / 254.5, hence half a percent
    cold = resistance_ohm(Cable(10.0, 4.0))
    assert cold / resistance_ohm(Cable(10.0, 4.0), temperature_c) == pytest.approx(kt, rel=6e-3)


def test_a_panel_of_8_55_a_needs_13_36_a_of_ampacity():
    assert needed_ampacity_a(8.55) == pytest.approx(13.359375)
    assert needed_ampacity_a(2 * 8.55) == pytest.approx(26.71875)


@pytest.mark.parametrize(
    ("gauge", "at_60c", "at_75c", "at_90c"),
    [("14", 15, 20, 25), ("12", 20, 25, 30), ("10", 30, 35, 40), ("8", 40, 50, 55), ("1/0", 125, 150, 170)],
)
def test_ampacity_is_as_printed(gauge, at_60c, at_75c, at_90c):
    area = awg_area_mm2(gauge)
    assert [ampacity_a(area, 30.0, insulation) for insulation in (60, 75, 90)] == [at_60c, at_75c, at_90c]


@pytest.mark.parametrize(
    ("air_c", "insulation_c", "left"),
    [
        (30, 90, 1.0),
        (30.1, 90, 0.96),
        (60, 90, 0.71),
        (70, 90, 0.58),
        (60, 75, 0.58),
        (60, 60, 0.0),
        (90, 90, 0.0),
    ],
)
def test_warm_air_takes_what_is_printed(air_c, insulation_c, left):
    assert heat_left(air_c, insulation_c) == left


@pytest.mark.parametrize(("gauge", "fuse_a"), [("14", 15), ("12", 20), ("10", 30)])
def test_thin_leads_ask_for_a_fuse_no_larger_than_printed(gauge, fuse_a):
    assert fuse_check(awg_area_mm2(gauge), fuse_a).passed
    assert not fuse_check(awg_area_mm2(gauge), fuse_a + 5).passed


def test_4_mm2_carries_a_panel_of_9_a_in_70_c_air():
    check = lead_check(4.0, 9.0, 70.0)
    assert check.demand == pytest.approx(14.0625)
    assert check.limit == pytest.approx(min(30.0, 30.0 * 0.58 * 1.25))
    assert check.passed
