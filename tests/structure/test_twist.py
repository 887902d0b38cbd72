"""Laws of a pane that hangs on two opposite corners."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.glass.pane import Pane, Sheet
from panewright.structure.corners.twist import STRETCHED, judge_twist, twist_mpa


def sheet(thickness_mm=3.78, treatment="tempered", material="glass"):
    return Sheet("any", material, treatment, "plain", thickness_mm, thickness_mm, 2500, 9e-6, 0.9)


panes = st.builds(
    lambda a, share, t: Pane(a, a * share, sheet(t)),
    st.floats(300, 2400),
    st.floats(0.3, 1.0),
    st.floats(2, 10),
)


@given(panes, st.floats(5, 800), st.floats(1, 3))
def test_more_weight_never_helps_and_a_thicker_pane_never_harms(pane, weight_n, factor):
    assert twist_mpa(pane, weight_n * factor) >= twist_mpa(pane, weight_n)
    thick = Pane(pane.long_mm, pane.short_mm, sheet(pane.sheet.thickness_mm * factor))
    assert twist_mpa(thick, weight_n) <= twist_mpa(pane, weight_n)


def test_the_couple_of_four_corners_by_hand():
    """160 N: 40 N up on two corners and down on two, 20 N of twist, 6 x 20 / 16 MPa on 4 mm."""
    narrow = Pane(10_000, 100, sheet(4.0))
    assert twist_mpa(narrow, 160.0) == pytest.approx(STRETCHED * 7.5, rel=0.02)


def test_annealed_and_plastic_panes():
    assert judge_twist(Pane(1600, 1000, sheet()), 20.0, "ASCE").passed
    assert not judge_twist(Pane(1600, 1000, sheet(treatment="annealed")), 20.0, "ASCE").passed
    acrylic = judge_twist(Pane(1600, 1000, sheet(treatment="none", material="acrylic")), 20.0, "EN")
    assert not acrylic.covered


def test_a_pane_too_far_bent_is_not_covered():
    """1 m wide and 2 mm thick: 20 kg snatched up is 350 times E t^4/b^2, 40 kg is past what was reckoned."""
    thin = Pane(1600, 1000, sheet(2.0))
    assert judge_twist(thin, 20.0, "ASCE").covered
    assert not judge_twist(thin, 40.0, "ASCE").covered
