"""Threads: ISO 898-1, ISO 3506-1, a distributor's table of unified threads (seen); bearing: Aluminum Design
Manual J.3 (memory)."""

import pytest

from panewright.frame.joining.bolt import M5, M6, bearing_limit_n, bearing_n
from panewright.frame.joining.thread import metric_area_mm2, unified_area_mm2
from panewright.frame.metals.stainless import CLASSES
from panewright.frame.rail import Rail


@pytest.mark.parametrize(
    ("d", "pitch", "area"), [(3, 0.5, 5.03), (4, 0.7, 8.78), (5, 0.8, 14.2), (6, 1.0, 20.1)]
)
def test_metric_stress_areas(d, pitch, area):
    assert metric_area_mm2(d, pitch) == pytest.approx(area, abs=0.05 if area > 10 else 0.005)


@pytest.mark.parametrize(
    ("diameter_in", "threads", "area_in2", "area_mm2"),
    [
        (0.138, 32, 0.00909, 5.861),
        (0.164, 32, 0.0140, 9.038),
        (0.190, 24, 0.0175, 11.311),
        (0.190, 32, 0.0200, 12.899),
        (0.250, 20, 0.0318, 20.53),
    ],
)
def test_unified_stress_areas(diameter_in, threads, area_in2, area_mm2):
    """#6-32, #8-32, #10-24, #10-32 and 1/4-20, printed to three digits of square inches."""
    assert unified_area_mm2(diameter_in, threads) / 25.4**2 == pytest.approx(area_in2, rel=3e-3)
    assert unified_area_mm2(diameter_in, threads) == pytest.approx(area_mm2, rel=3e-3)


@pytest.mark.parametrize(("number", "rupture", "proof"), [(50, 500, 210), (70, 700, 450), (80, 800, 600)])
def test_classes_of_stainless_steel(number, rupture, proof):
    assert (CLASSES[number].rupture_mpa, CLASSES[number].proof_mpa) == (rupture, proof)


@pytest.mark.parametrize(
    ("area_mm2", "proof_n", "breaking_n"),
    [
        (metric_area_mm2(4, 0.7), 3951, 6146),
        (metric_area_mm2(5, 0.8), 6390, 9940),
        (unified_area_mm2(0.164, 32), 4067, 6327),
        (unified_area_mm2(0.190, 24), 5090, 7917),
    ],
)
def test_proof_and_breaking_loads_of_class_a2_70(area_mm2, proof_n, breaking_n):
    """M4, M5, #8-32 and #10-24; the printed loads come from areas of three digits."""
    assert area_mm2 * M5.proof_mpa == pytest.approx(proof_n, rel=3e-3)
    assert area_mm2 * M5.rupture_mpa == pytest.approx(breaking_n, rel=3e-3)


def test_bearing_is_2_d_t_ftu_unless_the_edge_is_near():
    assert bearing_n(6.0, 3.0, 207.0, 12.0) == pytest.approx(2 * 6 * 3 * 207)
    assert bearing_n(6.0, 3.0, 207.0, 8.0) == pytest.approx(8 * 3 * 207)


def test_allowable_bearing_divides_by_1_95():
    rail = Rail("L", "angle", 38.1, 38.1, 3.175, "6063-T6", 3000)
    assert bearing_limit_n(rail, M6, 19.0, "ASCE") == pytest.approx(2 * 6 * 3.175 * 207 / 1.95)
