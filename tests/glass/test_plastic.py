"""Plastic sheet: handbook figures at both ends of its creep."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.glass.load import PaneLoad
from panewright.glass.pane import Pane, Sheet
from panewright.glass.plastic import (
    CAST_ACRYLIC,
    EXTRUDED_ACRYLIC,
    POLYCARBONATE,
    TEN_YEARS_S,
    creep_modulus_pa,
    plastic,
)
from panewright.glass.verdict.plastic import heat_check, judge_plastic


def test_creep_meets_the_handbooks_at_both_ends():
    assert creep_modulus_pa(CAST_ACRYLIC, 3) == 3.24e9  # distributor's sheet, seen
    assert creep_modulus_pa(CAST_ACRYLIC, TEN_YEARS_S) == pytest.approx(1.2e9)  # handbooks, recalled
    assert creep_modulus_pa(POLYCARBONATE, 3) == 2.3e9


@given(st.floats(1, 1e9), st.floats(1.01, 10))
def test_a_longer_load_never_finds_a_stiffer_sheet(seconds, times):
    assert creep_modulus_pa(CAST_ACRYLIC, seconds * times) <= creep_modulus_pa(CAST_ACRYLIC, seconds)


def test_acrylic_is_taken_as_the_weaker_kind_unless_named_cast():
    assert plastic("acrylic", "acrylic 4 mm") is EXTRUDED_ACRYLIC
    assert plastic("acrylic", "Cast acrylic 4 mm") is CAST_ACRYLIC
    assert plastic("polycarbonate") is POLYCARBONATE


@pytest.mark.parametrize(
    ("material", "name", "bears_c"),
    [("acrylic", "cast acrylic", 80.0), ("acrylic", "sheet", 70.0), ("polycarbonate", "sheet", 120.0)],
)
def test_a_cover_may_get_as_hot_as_its_maker_says(material, name, bears_c):
    sheet = Sheet(name, material, "none", "plain", 5.0, 4.5, 1190.0, 7.2e-5, 0.92)
    assert heat_check(sheet, bears_c).passed
    assert not heat_check(sheet, bears_c + 0.1).passed
    assert not heat_check(sheet, float("nan")).passed


def test_crazing_and_bow_are_those_of_the_loads_as_they_are():
    """The factored twin of a load changes neither, only the strength that no book covers."""
    sheet = Sheet("cast", "acrylic", "none", "plain", 6.0, 5.3, 1190.0, 7.2e-5, 0.92)
    snow = PaneLoad("snow", 600.0, 21 * 86400.0, "snow", factored=False)
    twin = PaneLoad("snow, factored", 900.0, 21 * 86400.0, "snow", factored=True)
    one, both = (judge_plastic(Pane(1200.0, 550.0, sheet), "EN", loads) for loads in ((snow,), (snow, twin)))
    assert one.deflection_mm == both.deflection_mm
    crazing = [[check for check in each.checks if "crazing" in check.rule] for each in (one, both)]
    assert crazing[0] == crazing[1] != []
    assert both.peak_mpa > one.peak_mpa
