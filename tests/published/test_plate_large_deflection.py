"""Large deflection of a simply supported plate, edges free in their plane: the glazing case.

Values derived by two independent programs: Legendre-Galerkin in w with Airy's function, 12 and 16
functions each way, and an energy method in u, v, w; they agree within 3e-6 in w. Digits: w 6, centre
stress 5, peak 3 (0.06 %). Beside them the case that must not be met, edges kept straight: S. Levy, NACA
TN 846, 1942 (recalled).
"""

from __future__ import annotations

import numpy as np
import pytest

from panewright.glass.plate.bending import Elastic, Plate, bend
from panewright.glass.plate.path import load_path

GLASS = Elastic(71.7e9, 0.22)
# a/b, Q, w/t, centre stress, peak, peak of the other face, membrane at centre and at the long edge's middle
ROWS = (
    (1.0, 5, 0.229585, 1.38071, 1.381, 1.08, 0.052, -0.102),
    (1.0, 10, 0.446618, 2.74825, 2.748, 2.131, 0.196, -0.386),
    (1.0, 25, 0.981367, 6.18446, 6.184, 5.004, 0.903, -1.87),
    (1.0, 50, 1.59313, 9.92049, 10.12, 9.147, 2.196, -4.93),
    (1.0, 100, 2.3875, 14.2694, 17.03, 16.55, 4.359, -10.909),
    (1.0, 150, 2.95572, 17.1368, 24.17, 23.53, 6.112, -16.337),
    (1.0, 200, 3.41697, 19.4002, 31.1, 30.35, 7.625, -21.301),
    (1.0, 250, 3.81337, 21.3354, 37.89, 37.09, 8.983, -25.903),
    (1.0, 300, 4.16507, 23.0607, 44.59, 43.76, 10.232, -30.225),
    (1.0, 500, 5.30139, 28.7799, 70.82, 70.13, 14.555, -45.679),
    (1.5, 5, 0.430493, 2.35352, 2.354, 1.421, 0.144, -0.259),
    (1.5, 10, 0.812543, 4.45536, 4.455, 2.778, 0.504, -0.912),
    (1.5, 25, 1.65486, 8.82296, 8.823, 6.44, 1.967, -3.59),
    (1.5, 50, 2.55518, 12.8685, 13.0, 11.87, 4.337, -7.981),
    (1.5, 100, 3.72561, 17.2308, 22.43, 21.94, 8.321, -15.507),
    (1.5, 150, 4.57199, 20.543, 32.19, 31.68, 11.684, -22.06),
    (1.5, 200, 5.26037, 24.4886, 41.76, 41.31, 14.662, -28.068),
    (1.5, 250, 5.85041, 27.9674, 51.2, 50.87, 17.369, -33.725),
    (1.5, 300, 6.37174, 31.1058, 60.55, 60.41, 19.869, -39.127),
    (1.5, 500, 8.03886, 41.5207, 98.29, 98.29, 28.5, -59.107),
    (2.0, 5, 0.566344, 2.95876, 2.959, 1.539, 0.161, -0.275),
    (2.0, 10, 1.07686, 5.6034, 5.603, 3.038, 0.568, -0.968),
    (2.0, 25, 2.23911, 11.3667, 11.37, 7.261, 2.292, -3.89),
    (2.0, 50, 3.5127, 17.1799, 17.18, 13.76, 5.237, -8.923),
    (2.0, 100, 5.16848, 23.798, 26.44, 26.09, 10.375, -17.923),
    (2.0, 200, 7.31394, 30.5942, 50.32, 50.31, 18.751, -33.219),
    (2.0, 250, 8.13169, 34.5288, 62.38, 62.37, 22.376, -40.086),
    (2.0, 300, 8.85171, 38.6181, 74.42, 74.42, 25.746, -46.617),
    (2.0, 500, 11.1423, 52.2964, 122.5, 122.4, 37.473, -70.568),
)
PANES = (  # a, b, t mm, q Pa, w mm, centre MPa, peak MPa, place of the peak
    (1000, 1000, 3.78, 2400, 11.6906, 18.2487, 26.762, [0.952, 0.952]),
    (1500, 1000, 3.78, 2400, 18.0554, 22.2326, 35.737, [0.967, 0.953]),
    (2000, 1000, 3.78, 2400, 25.1021, 29.387, 42.74, [0.973, 0.955]),
    (1500, 1200, 5.6, 1800, 12.029, 18.1191, 18.653, [0.0, 0.354]),
)
STRAIGHT = ((1.0, 100, 1.8928), (1.0, 500, 3.5952), (1.5, 100, 2.3939), (2.0, 25, 1.4062), (2.0, 500, 4.9003))
LEVY_Q = (12.1, 29.4, 56.9, 99.4, 161.0, 247.0, 358.0, 497.0)
FREE_AT_LEVY = (
    0.5071,
    1.0714,
    1.686,
    2.3375,
    3.0194,
    3.742,
    4.4783,
    5.2286,
)  # nu = 0.316, edges free (derived)


@pytest.mark.parametrize(("ratio", "q", "w", "centre", "peak", "other"), [row[:6] for row in ROWS])
def test_deflection_and_stresses_along_the_path(ratio, q, w, centre, peak, other):
    faces = load_path(ratio, 0.22).faces(q)
    assert faces.centre_deflection == pytest.approx(w, rel=3e-6)
    assert faces.centre_stress == pytest.approx(centre, rel=1e-4)
    assert faces.peak.stress == pytest.approx(peak, rel=1e-3)
    assert faces.pressed_peak.stress == pytest.approx(other, rel=1e-3)


@pytest.mark.parametrize(("ratio", "q", "centre", "edge"), [(*row[:2], *row[6:]) for row in ROWS])
def test_the_middle_is_a_skin_and_the_rim_is_pressed(ratio, q, centre, edge):
    faces = load_path(ratio, 0.22).faces(q)
    stress = faces.membrane(faces.tables_at(np.zeros(1), np.array([0.0, 1.0])))[0, 0]
    assert stress == pytest.approx([centre, edge], rel=2e-3, abs=6e-4)


@pytest.mark.parametrize(("long", "short", "thick", "pressure", "w", "centre", "peak", "place"), PANES)
def test_panes_with_sizes(long, short, thick, pressure, w, centre, peak, place):
    bent = bend(Plate(long, short, thick, GLASS), pressure)
    assert bent.deflection_mm == pytest.approx(w, rel=1e-5)
    assert bent.centre_mpa == pytest.approx(centre, rel=2e-4)
    assert bent.peak_mpa == pytest.approx(peak, rel=1e-3)
    assert bent.peak_long_mm / (long / 2) == pytest.approx(place[0], abs=2e-3)
    assert bent.peak_short_mm / (short / 2) == pytest.approx(place[1], abs=2e-3)


@pytest.mark.parametrize(("ratio", "q", "w"), STRAIGHT)
def test_edges_kept_straight_would_be_stiffer(ratio, q, w):
    assert load_path(ratio, 0.22).faces(q).centre_deflection > 1.1 * w


@pytest.mark.parametrize(("q", "w"), list(zip(LEVY_Q, FREE_AT_LEVY, strict=True)))
def test_another_poisson_ratio_rides_the_same_path(q, w):
    assert load_path(1.0, 0.316).faces(q).centre_deflection == pytest.approx(w, rel=5e-5)
