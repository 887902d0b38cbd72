"""Laws of bolts in rails."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.joining.bolt import M5, M6, bearing_limit_n, bolt_limit_n, shear_limit_n
from panewright.frame.rail import Rail


def rail(wall_mm=3.0, alloy="6063-T6"):
    return Rail("L", "angle", 40, 40, wall_mm, alloy, 6000)


@given(st.floats(1, 10), st.floats(0, 3), st.sampled_from(["ASCE", "EN"]))
def test_a_thicker_wall_never_bears_less(wall_mm, more_mm, family):
    thin, thick = rail(wall_mm), rail(wall_mm + more_mm)
    assert bearing_limit_n(thick, M6, 15, family) >= bearing_limit_n(thin, M6, 15, family)


@given(st.floats(1, 40), st.floats(0, 10), st.sampled_from(["ASCE", "EN"]))
def test_a_hole_nearer_to_the_edge_never_bears_more(edge_mm, more_mm, family):
    assert bearing_limit_n(rail(), M6, edge_mm, family) <= bearing_limit_n(
        rail(), M6, edge_mm + more_mm, family
    )


@pytest.mark.parametrize("family", ["ASCE", "EN"])
def test_the_weaker_of_bolt_and_wall_rules(family):
    wall, shank = bearing_limit_n(rail(), M6, 20, family), shear_limit_n(M6, family)
    assert bolt_limit_n(rail(), M6, 20, family) == min(wall, shank)
    assert shear_limit_n(M5, family) < shank


def test_an_alloy_outside_the_family_has_no_bolt_limit():
    assert bolt_limit_n(rail(alloy="6060-T66"), M6, 20, "ASCE") is None
    assert bolt_limit_n(rail(alloy="6063-T52"), M6, 20, "EN") is None
