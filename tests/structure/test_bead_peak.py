"""The bead beside the corner, where a far bent pane pulls hardest."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.glass.pane import Pane, Sheet
from panewright.seal.sealant import Bead, Sealant
from panewright.structure.bead.peak import judge_peak
from panewright.structure.loads import Loads

GLASS = Sheet("tempered 4", "glass", "tempered", "plain", 4.0, 3.78, 2500, 9e-6, 0.9)
SILICONE = Sealant("glazing silicone", 138e3, 7e3, 0.25, 300, structural=True)
BEAD = Bead(SILICONE, 10.0, 6.0, 4.0)
PANE = Pane(1600, 1000, GLASS)


def loads(suction_pa: float, family="ASCE") -> Loads:
    return Loads(family, (), (), suction_pa, suction_pa, suction_pa, suction_pa, suction_pa)


def test_a_little_suction_pulls_as_roarks_table_says():
    # gamma 0.491 at a/b = 1.6 for nu = 0.3 (seen); a smaller nu a little more
    check = judge_peak(PANE, BEAD, loads(1.0))
    assert check.demand * 10.0 * 1e3 == pytest.approx(0.491, rel=0.02)


def test_a_gale_pulls_beside_the_corner_more_than_the_trapezium():
    trapezium = 0.5 * 3000 * 1.0 / 10.0 / 1e3
    assert judge_peak(PANE, BEAD, loads(3000.0)).demand > 1.2 * trapezium


@pytest.mark.parametrize(("family", "limit"), [("ASCE", 0.345), ("EN", 6 * 0.138)])
def test_each_family_has_its_own_strength(family, limit):
    assert judge_peak(PANE, BEAD, loads(2000.0, family)).limit == pytest.approx(limit)


@settings(deadline=None, max_examples=25)
@given(st.floats(10, 4000), st.floats(1.0, 1.5))
def test_more_suction_pulls_harder(suction, more):
    one, two = (judge_peak(PANE, BEAD, loads(each)).demand for each in (suction, more * suction))
    assert one <= two * (1 + 1e-9)


def test_silicone_not_sold_to_hold_panes_never_passes():
    other = replace(BEAD, sealant=replace(SILICONE, structural=False))
    assert judge_peak(PANE, other, loads(100.0)).limit is None
