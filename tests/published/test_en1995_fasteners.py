"""EN 1995-1-1: screws and bolts in timber.

Example of two 12 mm steel plates on C24 timber with M12 bolts of 400 MPa: plate as washer 12.6 kN on its 48
mm, read in a public textbook on structural timber design (example 12.8.1). Withdrawal formula 8.38 of
amendment A1: read in a public note; its figures here are arithmetic with a hand calculator's digits
(derived). EN 338 C24 read in a public table.
"""

import math

import pytest

from panewright.frame.support.timber import timber
from panewright.structure.mounting.timber.johansen import (
    Joint,
    embedding_mpa,
    lateral_n,
    thick_n,
    thin_n,
    yield_moment_nmm,
)
from panewright.structure.mounting.timber.withdrawal import en_washer_n, en_withdrawal_n


def test_washer_of_the_example():
    assert en_washer_n(48.0, 13.0, 2.5) == pytest.approx(1.26e4, abs=50)


def test_c24():
    wood = timber("C24")
    assert (wood.bending_mpa, wood.across_mpa, wood.density_kg_m3, wood.young_mpa) == (24, 2.5, 350, 11000)


def test_withdrawal_of_an_8_mm_screw_64_mm_in_c24():
    """0.52 / sqrt 8 = 0.18385; 64^-0.1 = 0.65975; 350^0.8 = 108.45: 13.154 N/mm2 on 512 mm2."""
    assert en_withdrawal_n(8.0, 64.0, 350.0) == pytest.approx(13.154 * 512, rel=1e-3)


def test_a_thin_screw_earns_less_by_its_diameter():
    """k_d = d / 8 below 8 mm: 0.52 / sqrt 6 x 36^-0.1 x 350^0.8 = 16.09 N/mm2 on 216 mm2, times 0.75."""
    assert en_withdrawal_n(6.0, 36.0, 350.0) == pytest.approx(16.09 * 216 * 0.75, rel=1e-3)


def test_johansen_of_the_example_s_bolt_in_one_shear_plane():
    """My = 0.3 x 400 x 12^2.6 = 76 745 N mm; fh = 0.082 x 0.88 x 350 = 25.256 MPa; derived by hand.

    twice bent 2.3 sqrt(My fh d) = 11 092 N; thin 1.15 sqrt(2 My fh d) = 7843 N.
    """
    moment, hold = yield_moment_nmm(400.0, 12.0), embedding_mpa(350.0, 12.0, 0.0)
    assert (moment, hold) == (pytest.approx(76745, abs=1), pytest.approx(25.256))
    joint = Joint(12.0, moment, 200.0, hold, 12.0)
    assert thick_n(joint) == pytest.approx(11092, abs=2)
    assert thin_n(joint) == pytest.approx(7843, abs=2)
    assert lateral_n(joint) == thick_n(joint)
    assert lateral_n(Joint(12.0, moment, 200.0, hold, 6.0)) == thin_n(joint)


def test_a_short_bolt_crushes_the_wood():
    joint = Joint(12.0, 76745.0, 20.0, 25.256, 6.0)
    assert thin_n(joint) == pytest.approx(0.4 * 25.256 * 20 * 12)


def test_rope_adds_what_it_is_given():
    joint = Joint(12.0, 76745.0, 200.0, 25.256, 12.0)
    assert thick_n(joint, rope_n=3144.0) == pytest.approx(thick_n(joint) + 3144)


def test_across_the_grain_the_wood_bears_less():
    """k90 = 1.35 + 0.015 x 12 = 1.53."""
    assert embedding_mpa(350.0, 12.0, 90.0) == pytest.approx(25.256 / 1.53)
    assert math.isclose(embedding_mpa(350.0, 6.0, 90.0), embedding_mpa(350.0, 6.0, 0.0))
