"""Type tests of a pane: apart from its design, and of its own family only."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.glass.pane import Pane, Sheet
from panewright.glass.strength import e1300, en16612
from panewright.glass.strength.survival import TEST_PA, survive

SOLAR = Sheet("solar 4", "glass", "tempered", "plain", 4.0, 3.8, 2500.0, 9e-6, 0.91)
PANE = Pane(1500.0, 680.0, SOLAR)


def test_an_hour_on_tempered_glass_by_astm_e1300():
    """Type factors 4.0 at 3 s and 3.0 at 30 days (table 1, recalled); between them the power law: 3.445."""
    low, high = survive(PANE, "ASCE")
    assert (low.demand, high.demand) == TEST_PA
    nfl = e1300.non_factored_load_pa(1500.0, 680.0, 3.8)
    assert low.limit == pytest.approx(3.4455 * nfl, rel=1e-3)
    assert low.passed


def test_an_hour_on_tempered_glass_by_en_16612():
    """0.663 x 45 + (120 - 45) = 104.8 MPa: k_mod of an hour, f_gk, f_bk of product standards (recalled)."""
    low, high = survive(PANE, "EN")
    assert low.limit == high.limit == pytest.approx(0.663 * 45 + 75)
    assert low.demand < high.demand
    assert en16612.strength_mpa("tempered", 3600.0) < low.limit  # a design is held against less


@pytest.mark.parametrize("family", ["ASCE", "EN"])
def test_what_a_rule_book_does_not_cover_has_no_limit(family):
    acrylic = replace(SOLAR, material="acrylic", treatment="none")
    assert all(not check.covered for check in survive(Pane(1500.0, 680.0, acrylic), family))


def test_patterned_glass_is_of_en_only():
    patterned = Pane(1500.0, 680.0, replace(SOLAR, surface="patterned"))
    assert not survive(patterned, "ASCE")[0].covered
    assert survive(patterned, "EN")[0].limit == pytest.approx(0.663 * 33 + 45)


@settings(deadline=None, max_examples=40)
@given(st.sampled_from(["ASCE", "EN"]), st.floats(2.5, 9.5), st.floats(1.01, 1.3))
def test_thicker_glass_is_never_weaker(family, thickness, more):
    def use(mm):
        sheet = replace(SOLAR, nominal_mm=max(4.0, mm), thickness_mm=mm)
        return [check.utilisation for check in survive(Pane(1200.0, 700.0, sheet), family)]

    thin, thick = use(thickness), use(thickness * more)
    assert all(after <= before * (1 + 1e-9) for before, after in zip(thin, thick, strict=True))
