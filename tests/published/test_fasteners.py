"""Threads: ISO 898-1, ISO 3506-1 (seen); bearing: Aluminum Design Manual J.3 (memory)."""

import pytest

from panewright.frame.bolt import M5, M6, bearing_limit_n, bearing_n, metric_area_mm2
from panewright.frame.rail import Rail


@pytest.mark.parametrize(
    ("d", "pitch", "area"), [(3, 0.5, 5.03), (4, 0.7, 8.78), (5, 0.8, 14.2), (6, 1.0, 20.1)]
)
def test_metric_stress_areas(d, pitch, area):
    assert metric_area_mm2(d, pitch) == pytest.approx(area, abs=0.05 if area > 10 else 0.005)


@pytest.mark.parametrize(
    ("area_mm2", "proof_n", "breaking_n"),
    [
        (metric_area_mm2(4, 0.7), 3951, 6146),
        (metric_area_mm2(5, 0.8), 6390, 9940),
    ],
)
def test_proof_and_breaking_loads_of_class_a2_70(area_mm2, proof_n, breaking_n):
    """The printed loads come from areas of three digits."""
    assert area_mm2 * M5.proof_mpa == pytest.approx(proof_n, rel=2.5e-3)
    assert area_mm2 * M5.rupture_mpa == pytest.approx(breaking_n, rel=2.5e-3)


def test_bearing_is_2_d_t_ftu_unless_the_edge_is_near():
    assert bearing_n(6.0, 3.0, 207.0, 12.0) == pytest.approx(2 * 6 * 3 * 207)
    assert bearing_n(6.0, 3.0, 207.0, 8.0) == pytest.approx(8 * 3 * 207)


def test_allowable_bearing_divides_by_1_95():
    rail = Rail("L", "angle", 38.1, 38.1, 3.175, "6063-T6", 3000)
    assert bearing_limit_n(rail, M6, 19.0, "ASCE") == pytest.approx(2 * 6 * 3.175 * 207 / 1.95)
