"""Sundries counted in the way they are sold."""

from dataclasses import replace
from decimal import Decimal

import pytest

from panewright.price.sundries import sundry_needs
from panewright.shelf.load import load_shelf
from panewright.shelf.shelf import Row, Sundry
from panewright.structure.drilling.fixing import FIXINGS
from panewright.structure.sundries import Amounts, Closed, sold

SHELF = load_shelf()
POURED = Amounts(
    encapsulation="silicone pour",
    back_m2=0.7,
    round_m=3.4,
    pour_kg=2.2,
    pour_l=2.1,
    diodes=2,
    corners=4,
    corner_screws=16,
    brackets=4,
    drains=2,
    seams=144,
    joints=20,
    isc_a=5.6,
)


def by_name(needs, start):
    found = [need for need in needs if need.name.startswith(start)]
    assert len(found) == 1
    return found[0]


def test_a_poured_panel_takes_encapsulant_and_no_film():
    names = [need.name for need in sundry_needs(POURED, SHELF)]
    assert any("encapsulant" in name for name in names)
    assert not any("film" in name for name in names)


def test_a_laminated_panel_takes_film_for_both_faces():
    film = by_name(sundry_needs(replace(POURED, encapsulation="film", film_m2=1.4), SHELF), "EVA")
    assert film.one == Decimal("1.4")


def test_encapsulant_sold_by_the_litre_is_counted_in_litres():
    row = Row("silicone", Sundry("silicone", "encapsulant", 1.05), Decimal(30), "litre", "a test")
    shelf = replace(SHELF, sundries=(row,))
    assert by_name(sundry_needs(POURED, shelf), "silicone").one == Decimal("2.1")


@pytest.mark.parametrize(("diodes", "box"), [(0, "two"), (2, "two"), (3, "four")])
def test_more_diodes_take_the_larger_box(diodes, box):
    assert box in by_name(sundry_needs(replace(POURED, diodes=diodes), SHELF), "junction box").name


def test_a_use_that_the_shelf_lacks_is_listed_without_a_price():
    needs = sundry_needs(POURED, replace(SHELF, sundries=(), pours=(), backs=()))
    assert needs
    assert all(need.price is None for need in needs)


def test_flux_does_not_stay_in_the_panel():
    assert by_name(sundry_needs(POURED, SHELF), "no-clean flux").mass_kg == 0


def test_what_is_left_in_the_cup_does_not_weigh_in_the_panel():
    need = by_name(sundry_needs(replace(POURED, poured_share=0.9), SHELF), "clear silicone")
    assert need.one == Decimal("2.2")
    assert need.mass_kg == pytest.approx(0.9 * 2.2)


@pytest.mark.parametrize("fixing", FIXINGS, ids=lambda fixing: fixing.purpose)
def test_the_part_for_a_hole_is_one_that_goes_through_it(fixing):
    amounts = replace(POURED, board_screws=24)
    (found,) = [each for each in sold(amounts, SHELF) if each.taken.use == fixing.use]
    assert found.row.part.fit_mm == pytest.approx(fixing.hole_mm)


def test_a_part_for_another_hole_is_not_taken():
    rows = (Row("thin screw", Sundry("thin screw", "screw", 0.002, 4.5), Decimal(1), "each", "a test"),)
    (need,) = [need for need in sundry_needs(POURED, replace(SHELF, sundries=rows)) if need.name == "screw"]
    assert need.price is None


@pytest.mark.parametrize(("gap_mm", "block"), [(3, "3 x"), (5, "4 x"), (7, "6 x"), (9, "8 x"), (33, "10 x")])
def test_a_setting_block_is_no_thicker_than_its_gap(gap_mm, block):
    assert block in by_name(sundry_needs(replace(POURED, gap_mm=gap_mm), SHELF), "setting block").name


def test_no_block_goes_into_a_gap_that_is_too_narrow():
    assert by_name(sundry_needs(replace(POURED, gap_mm=2), SHELF), "block").price is None


def test_what_closes_a_panel_is_priced_by_the_name_that_the_design_took():
    closed = Closed(pour="clear silicone encapsulant, slow", back="black back sheet 0.32 mm")
    needs = sundry_needs(replace(POURED, closed=closed), SHELF)
    assert by_name(needs, "clear silicone").price == Decimal("34.00")
    assert by_name(needs, "black back sheet").mass_kg == pytest.approx(0.7 * 0.44)


def test_what_the_order_describes_in_full_has_its_mass_and_no_price():
    closed = Closed(pour="pour of the order", back="back of the order", back_kg_m2=2.0)
    needs = sundry_needs(replace(POURED, closed=closed), SHELF)
    assert by_name(needs, "pour of").price is None
    assert [
        each.mass_kg for each in sold(replace(POURED, closed=closed), SHELF) if "of the order" in each.name
    ] == [
        pytest.approx(2.2),
        pytest.approx(1.4),
    ]
