"""The series in flowing sea water (handbooks, recalled); what airs bear (a maker's guide, read)."""

import pytest

from panewright.frame.metals.galvanic import MOST_V, POTENTIAL_V


@pytest.mark.parametrize(
    ("metal", "volts"),
    [("aluminium", -0.74), ("stainless", -0.08), ("copper", -0.33), ("zinc", -1.03), ("tin", -0.32)],
)
def test_potentials_against_the_calomel_electrode(metal, volts):
    assert POTENTIAL_V[metal] == volts


def test_differences_that_dry_damp_and_salt_air_bear():
    assert MOST_V == {"dry": 0.50, "damp": 0.25, "salt": 0.15}
