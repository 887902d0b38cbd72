"""An air gap fogs by its damp, its bead, its back and its desiccant."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.enclosure.fog import Damp, Enclosed, fog, fog_check, grams_a_day_pa
from panewright.enclosure.moist_air import dew_point_c, saturation_pa, water_g_m3

SPACE = Enclosed(10.0, 4200.0, 6.0, 9.0, 1.0, back_g_m2_day=0.0)
DRY = Damp(23.0, 0.5, -14.0, 37.0, 7.0, desiccant_g=60.0)


@given(st.floats(-50.0, 90.0), st.floats(-50.0, 90.0))
def test_warmer_air_holds_more(one_c, other_c):
    cold, hot = sorted((one_c, other_c))
    assert saturation_pa(cold) <= saturation_pa(hot)


@given(st.floats(-50.0, 90.0))
def test_saturated_air_fogs_at_its_own_heat(at_c):
    assert dew_point_c(saturation_pa(at_c)) == pytest.approx(at_c, abs=0.02)


@given(st.floats(0.0, 500.0), st.floats(0.0, 500.0))
def test_more_desiccant_never_fogs_sooner(one_g, other_g):
    less, more = sorted((one_g, other_g))
    years = [fog(SPACE, replace(DRY, desiccant_g=grams), "sealed").desiccant_days for grams in (less, more)]
    assert years[0] <= years[1]


@given(st.floats(3.0, 30.0), st.floats(1.01, 4.0))
def test_a_wider_bead_lets_less_through_and_a_higher_one_more(wide, more):
    base = grams_a_day_pa(replace(SPACE, bead_wide_mm=wide))
    assert grams_a_day_pa(replace(SPACE, bead_wide_mm=wide * more)) < base
    assert grams_a_day_pa(replace(SPACE, bead_wide_mm=wide, bead_high_mm=6.0 * more)) > base


@given(st.floats(0.5, 30.0))
def test_the_desiccant_reckoned_for_so_many_years_lasts_them(years):
    grams = years * fog(SPACE, DRY, "sealed").sieve_g_a_year
    found = fog(SPACE, replace(DRY, desiccant_g=grams), "sealed")
    assert found.clear_years == pytest.approx(years, abs=0.05)  # what the bench shut in takes a little


def test_a_plastic_back_fogs_at_once_where_a_glass_one_stays_dry():
    plastic = replace(SPACE, back_g_m2_day=1.5)
    sealed = [fog(space, DRY, "sealed").clear_years for space in (SPACE, plastic)]
    assert sealed[0] > 1.5
    assert sealed[1] < 0.2
    assert fog_check(fog(SPACE, DRY, "sealed"), 1.0).passed
    assert not fog_check(fog(plastic, DRY, "sealed"), 1.0).passed


def test_a_vented_gap_is_never_promised_clear():
    found = fog(SPACE, DRY, "vented")
    assert found.clear_years == 0.0
    assert not fog_check(found, 0.5).passed
    assert 0.4 < found.fogs_above < 0.8  # seven kelvin below the air


def test_damp_air_shut_in_fogs_in_the_first_clear_night():
    damp = fog(SPACE, replace(DRY, desiccant_g=0.0), "sealed")
    assert damp.enclosed_dew_c > damp.night_pane_c
    assert damp.clear_years == 0.0


def test_water_is_a_gas_of_its_own_constant():
    assert water_g_m3(1000.0, 20.0) == pytest.approx(1000 * 1000.0 / (461.5 * 293.15))


def test_bad_arguments_say_what_was_got():
    with pytest.raises(ValueError, match="not 120"):
        saturation_pa(120.0)
    with pytest.raises(ValueError, match="got 0 Pa"):
        dew_point_c(0.0)
    with pytest.raises(ValueError, match="has room"):
        replace(SPACE, volume_l=0.0)
