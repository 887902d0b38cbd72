"""Cure by two heats.

A clear ten-to-one silicone's data sheet, recalled: full cure 48 h at 25 degC, 35 min at 100, 20 min at 125,
10 min at 150 degC. Two of the four have to foretell the others; the sheet rounds to ten minutes.
G. M. Wallner and others 2022 (abstract, seen): 155 kJ/mol for EVA and POE alike, POE up to 1.6 times as long.
K. Thaworn and others 2012 (abstract, seen): peroxyester EVA cured out within 5 to 8 min at 150 to 160 degC.
A national laboratory in the USA, 1996 (abstract, seen): about 80 % gel, 4 min programmed at 155 degC.
"""

import pytest

from panewright.enclosure.arrhenius import GAS_J_MOLK, Timed, energy_j_mol, slower
from panewright.enclosure.film import MOST_GEL, Film, gel, per_min


def test_gas_constant_is_that_of_codata():
    assert pytest.approx(1.380649e-23 * 6.02214076e23, rel=1e-9) == GAS_J_MOLK


@pytest.mark.parametrize(("at_c", "minutes"), [(125.0, 20.0), (150.0, 10.0)])
def test_a_sheets_first_two_cures_foretell_its_others_within_a_factor_of_two(at_c, minutes):
    energy = energy_j_mol(Timed(48 * 60.0, 25.0), Timed(35.0, 100.0))
    told = 48 * 60.0 * slower(energy, 25.0, at_c)
    assert minutes / 2.5 < told < minutes  # an oven also has to warm the part, which the sheet counts in


def test_a_reaction_of_some_50_kj_doubles_in_ten_kelvin_near_room_heat():
    assert slower(52.9e3, 20.0, 30.0) == pytest.approx(0.489, abs=2e-3)  # the usual rule of thumb: a half


def test_eva_is_cured_out_in_five_to_eight_minutes():
    assert gel(Film(), [(8.0, 150.0)]) / MOST_GEL == pytest.approx(0.9, abs=1e-9)
    assert gel(Film(), [(5.0, 160.0)]) / MOST_GEL > 0.95


def test_gel_of_a_laboratorys_film():
    assert gel(Film(), [(4.0, 155.0)]) == pytest.approx(0.80, abs=0.02)


def test_poe_takes_no_more_than_1_6_times_as_long():
    eva, poe = Film(), Film(kind="POE", nine_tenths_min=12.8)
    assert per_min(eva, 150.0) / per_min(poe, 150.0) == pytest.approx(1.6)
