"""Effective thickness of laminated glass after ASTM E1300-09a appendix X11 (X9 in -16).

Two calculation sheets after that appendix, each read on a public document site; the interlayers' moduli and
the last pane are in the data and the tests of an open program that follows the structural glass design guide
of NCSEA (seen). EN 16612 has no worked example that was seen; its two ends are exact by themselves.
"""

from __future__ import annotations

import pytest

from panewright.glass.interlayer import shear_modulus_pa
from panewright.glass.laminated import effective, shear_share
from panewright.glass.pane import Plies

DAY = 86400.0


def by_astm(plies, span_mm, modulus_pa):
    return effective(plies, shear_share(plies, span_mm, modulus_pa), plies.between_mm)


def test_a_sheet_of_1500_x_6000_mm_with_an_ionoplast_at_50_degrees():
    plies = Plies(5.56, 5.56, 1.52, "ionoplast")
    found = by_astm(plies, 1500.0, 7.1e6)
    assert found.deflection_mm == pytest.approx(12.0699860411951, rel=1e-12)
    assert found.stress_mm == pytest.approx(12.3389632912939, rel=1e-12)


def test_a_sheet_of_1950_mm_span_with_plies_of_15_mm():
    plies = Plies(15.0, 15.0, 1.52, "ionoplast")  # the sheet takes E as 70 GPa: the share changes by 0.002
    assert shear_share(plies, 1950.0, 26.4e6 * 71.7 / 70) == pytest.approx(0.93, abs=0.005)
    found = by_astm(plies, 1950.0, 26.4e6 * 71.7 / 70)
    assert found.deflection_mm == pytest.approx(30.92, abs=0.005)
    assert found.stress_mm == pytest.approx(31.21, abs=0.005)


def test_unequal_plies_with_soft_interlayer():
    found = by_astm(Plies(7.42, 5.56, 1.52, "pvb"), 1000.0, 0.44e6)
    assert found.deflection_mm == pytest.approx(9.53304352, abs=1e-7)
    assert found.outer_mm == pytest.approx(10.2650672, abs=1e-6)
    assert found.inner_mm == pytest.approx(11.4310515, abs=1e-6)


@pytest.mark.parametrize(
    ("interlayer", "at_c", "duration_s", "mpa"),
    [
        ("pvb", 20, 3, 8.06),
        ("pvb", 30, DAY, 0.281),
        ("pvb", 50, 3, 0.44),
        ("pvb", 50, 30 * DAY, 0.052),
        ("ionoplast", 50, 3, 26.4),
        ("ionoplast", 40, 30 * DAY, 3.29),
        ("ionoplast", 80, 10 * 365.25 * DAY, 0.18),
    ],
)
def test_moduli_at_the_table_s_own_entries(interlayer, at_c, duration_s, mpa):
    assert shear_modulus_pa(interlayer, at_c, duration_s) == pytest.approx(mpa * 1e6, rel=1e-9)


def test_en_as_one_and_apart_are_the_sum_and_the_root_of_cubes():
    plies = Plies(4.0, 6.0, 0.76, "pvb")
    assert effective(plies, 1.0, 0.0).deflection_mm == pytest.approx(10.0, rel=1e-12)
    assert effective(plies, 1.0, 0.0).outer_mm == pytest.approx(10.0, rel=1e-12)
    assert effective(plies, 0.0, 0.0).deflection_mm == pytest.approx((4**3 + 6**3) ** (1 / 3), rel=1e-12)
    assert effective(plies, 0.0, 0.0).inner_mm == pytest.approx(((4**3 + 6**3) / 6) ** 0.5, rel=1e-12)
