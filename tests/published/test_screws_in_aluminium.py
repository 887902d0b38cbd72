"""Screws in aluminium by the Aluminum Design Manual 2015: a screw maker's product tables of 2021 (read).

The tables print pounds to the nearest five, of 6063-T5, 6063-T6 and 6061-T6. Pull-over: hexagon heads of
0.400, 0.415 and 0.500 in, which the printed figures give back. Bearing: safety 3.00, the hole 1.5
diameters from the edge.
"""

import pytest

from panewright.frame.joining.screw import OMEGA_SCREW, pull_over_n
from panewright.frame.joining.tapping import TappingScrew, walls_n
from panewright.frame.joining.wall import Wall

KSI, LBF, INCH = 6.894757, 4.448222, 25.4
NO_BREAK = 400.0  # MPa; the head comes through before the wall tears


@pytest.mark.parametrize(
    ("head_in", "wall_in", "printed_lbf"),
    [
        (0.400, 1 / 32, (225, 355, 495)),
        (0.400, 1 / 16, (505, 790, 1105)),
        (0.400, 1 / 8, (1225, 1915, 2680)),
        (0.415, 1 / 16, (520, 815, 1140)),
        (0.415, 1 / 8, (1255, 1960, 2745)),
        (0.500, 1 / 32, (275, 430, 605)),
        (0.500, 1 / 16, (605, 945, 1325)),
        (0.500, 1 / 8, (1425, 2225, 3115)),
    ],
)
def test_heads_pulled_through(head_in, wall_in, printed_lbf):
    for yield_ksi, printed in zip((16, 25, 35), printed_lbf, strict=True):
        wall = Wall(wall_in * INCH, yield_ksi * KSI, NO_BREAK)
        assert pull_over_n(head_in * INCH, wall) / LBF == pytest.approx(printed, abs=3.0)


@pytest.mark.parametrize(
    ("diameter_in", "wall_in", "printed_lbf"),
    [
        (0.164, 1 / 16, (115, 155, 215)),
        (0.164, 1 / 8, (None, 310, 430)),  # 220 is printed; its neighbour 310 times 22/30 is 227
        (0.190, 1 / 16, (130, 180, 250)),
        (0.190, 1 / 8, (260, 355, 500)),
        (0.216, 1 / 16, (150, 205, 285)),
        (0.216, 1 / 8, (295, 405, 565)),
        (0.250, 1 / 16, (170, 235, 330)),
        (0.250, 1 / 8, (345, 470, 655)),
    ],
)
def test_walls_lapped_under_a_screw(diameter_in, wall_in, printed_lbf):
    """Printed for safety 3.00; 6061-T6 there with 42 ksi, as of plate."""
    screw = TappingScrew("a screw", diameter_in * INCH, 10.0, diameter_in * INCH, 10.0)
    for rupture_ksi, printed in zip((22, 30, 42), printed_lbf, strict=True):
        wall = Wall(wall_in * INCH, 1.0, rupture_ksi * KSI)
        edge_mm = 1.5 * diameter_in * INCH
        if printed is None:
            continue
        assert walls_n(screw, wall, wall, edge_mm, "ASCE") / LBF == pytest.approx(printed, abs=3.0)


def test_the_safety_of_screws():
    assert OMEGA_SCREW == 3.0
