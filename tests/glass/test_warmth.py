"""What a sheet lets through of the whole sun, and what it keeps as heat."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.glass.pane import Sheet
from panewright.glass.warmth import warmth

LOW_IRON = Sheet("low-iron", "glass", "tempered", "plain", 3.2, 3.0, 2500.0, 9e-6, 0.905)
CLEAR = replace(LOW_IRON, name="clear", nominal_mm=4.0, thickness_mm=3.8, solar_transmittance=0.83)
ACRYLIC = Sheet("acrylic", "acrylic", "none", "plain", 5.0, 4.5, 1190.0, 7.2e-5, 0.92)


def test_low_iron_glass_keeps_next_to_nothing_and_clear_float_a_tenth():
    assert warmth(LOW_IRON, 1.0).through == pytest.approx(0.905, abs=0.001)
    assert warmth(LOW_IRON, 1.0).takes == pytest.approx(0.013, abs=0.006)
    assert warmth(CLEAR, 1.0).takes == pytest.approx(0.095, abs=0.01)


def test_acrylic_keeps_the_suns_heat_that_visible_light_does_not_tell():
    assert warmth(ACRYLIC, 1.0).takes > 0.05
    assert warmth(ACRYLIC, 1.0).through < 0.92 - 0.04


@settings(deadline=None, max_examples=30)
@given(st.floats(0.5, 0.9), st.sampled_from([1.0, 1.41, 1.48]), st.sampled_from([CLEAR, ACRYLIC]))
def test_shares_stay_within_the_sunlight(transmittance, index, sheet):
    found = warmth(replace(sheet, solar_transmittance=transmittance), index)
    assert 0 <= found.takes <= found.takes + found.through <= 1
    assert found.through >= warmth(replace(sheet, solar_transmittance=transmittance), 1.0).through


def test_each_material_conducts_and_emits_as_its_own():
    found = [warmth(replace(LOW_IRON, material=each), 1.41) for each in ("glass", "acrylic", "polycarbonate")]
    assert [each.conducts_w_mk for each in found] == [1.0, 0.19, 0.21]
    assert [each.emits for each in found] == [0.84, 0.9, 0.9]
