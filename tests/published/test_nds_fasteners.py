"""National Design Specification for Wood Construction, 2015 and 2018: fasteners in timber.

Table 12.2A, lag screws in withdrawal, and table 12K, lag screws under a steel plate, penetration 8 D: read
in scans of public records; rounded there to 1 lb/in and to 10 lb. The example of a 1/2 x 4 in lag screw
through 1 1/2 in into southern pine, 4.2479 kN: read in the verification of a public structural library that
follows the AWC's solved examples. Wood screw No. 10, G 0.45, 109 lb/in: read on a public engineering page.
Dowel bearing 5600 psi: table 12.3.3 (memory).
"""

import pytest

from panewright.frame.support.timber import timber
from panewright.frame.support.wood_screw import KSI_MPA, WoodScrew
from panewright.structure.mounting.timber.lateral import PSI_MPA, Dowel, bearing_mpa, lateral_n
from panewright.structure.mounting.timber.withdrawal import (
    asce_withdrawal_n,
    lag_n_mm,
    thread_in_wood_mm,
    wood_screw_n_mm,
)
from panewright.units import POUND_FORCE_N

INCH_MM = 25.4


@pytest.mark.parametrize(
    ("gravity", "inch", "pounds"),
    [
        (0.67, 0.25, 349),
        (0.55, 0.25, 260),
        (0.50, 0.25, 225),
        (0.50, 0.3125, 266),
        (0.50, 0.375, 305),
        (0.50, 0.5, 378),
        (0.43, 0.375, 243),
        (0.42, 0.25, 173),
        (0.42, 0.3125, 205),
        (0.36, 0.375, 186),
        (0.55, 0.5, 437),
    ],
)
def test_lag_screws_in_withdrawal(gravity, inch, pounds):
    assert lag_n_mm(gravity, inch * INCH_MM) * INCH_MM / POUND_FORCE_N == pytest.approx(pounds, abs=1.0)


def test_the_solved_example_of_a_lag_screw():
    """T - E of the screw lies in the main member: 2.1875 in."""
    screw = WoodScrew("1/2 x 4", "lag screw", 0.5 * INCH_MM, 4 * INCH_MM)
    in_wood = (4 - 1.5) * INCH_MM
    assert thread_in_wood_mm(screw, in_wood) / INCH_MM == pytest.approx(2.1875)
    load = asce_withdrawal_n(screw, timber("southern pine"), in_wood)
    assert load == pytest.approx(4247.9, abs=0.1)


def test_wood_screw_in_withdrawal():
    assert wood_screw_n_mm(0.45, 0.190 * INCH_MM) * INCH_MM / POUND_FORCE_N == pytest.approx(109, abs=1)


@pytest.mark.parametrize(
    ("plate", "inch", "gravity", "along", "across"),
    [
        (0.120, 0.25, 0.50, 170, 120),
        (0.120, 0.25, 0.42, 160, 110),
        (0.120, 0.25, 0.55, 180, 130),
        (0.120, 0.3125, 0.50, 210, 140),
        (0.120, 0.3125, 0.43, 190, 130),
        (0.120, 0.375, 0.50, 210, 140),
        (0.120, 0.375, 0.55, 220, 150),
        (0.120, 0.375, 0.67, 240, 170),
        (0.120, 0.375, 0.42, 190, 120),
        (0.105, 0.375, 0.50, 200, 140),
        (0.105, 0.25, 0.50, 160, 120),
        (0.075, 0.3125, 0.55, 200, 140),
        (0.075, 0.25, 0.50, 150, 110),
    ],
)
def test_lag_screws_under_a_steel_plate(plate, inch, gravity, along, across):
    """A653 grade 33 bears 61 850 psi; printed to 10 lb."""
    screw = WoodScrew("lag", "lag screw", inch * INCH_MM, 100.0)
    for grain, pounds in ((0, along), (90, across)):
        dowel = Dowel(
            screw.diameter_mm,
            screw.root_mm,
            screw.bending_yield_mpa,
            main_mm=8 * screw.diameter_mm,
            side_mm=plate * INCH_MM,
            main_mpa=bearing_mpa(gravity, screw.diameter_mm, grain),
            side_mpa=61850 * PSI_MPA,
        )
        assert lateral_n(dowel, grain) / POUND_FORCE_N == pytest.approx(pounds, abs=5.5)


def test_bending_yield_of_lag_screws():
    ksi = [
        WoodScrew("lag", "lag screw", inch * INCH_MM, 80.0).bending_yield_mpa / KSI_MPA
        for inch in (0.25, 0.3125, 0.375)
    ]
    assert ksi == pytest.approx([70, 60, 45])


def test_dowel_bearing_of_douglas_fir():
    assert bearing_mpa(0.50, 0.5 * INCH_MM, 0) / PSI_MPA == pytest.approx(5600, abs=50)
    assert bearing_mpa(0.50, 0.5 * INCH_MM, 90) / PSI_MPA == pytest.approx(3150, abs=50)
