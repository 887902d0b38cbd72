"""Plastic sheet: handbook figures at both ends of its creep."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.glass.plastic import (
    CAST_ACRYLIC,
    EXTRUDED_ACRYLIC,
    POLYCARBONATE,
    TEN_YEARS_S,
    creep_modulus_pa,
    plastic,
)


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
