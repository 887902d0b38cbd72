"""A school's worked example of Stokes' law (seen): a bubble of 0.1 mm radius rises at 0.35 cm/s in a liquid
of 1000 kg/m3, so that is as sticky as 6.2e-3 Pa s.
"""

import pytest

from panewright.enclosure.degassing import Liquid, rise_mm_s


def test_a_bubble_in_a_thin_liquid():
    assert rise_mm_s(0.2, Liquid(1000.0, 6.2e-3)) == pytest.approx(3.5, abs=0.05)
