"""Sundries counted in the way they are sold."""

from dataclasses import replace
from decimal import Decimal

import pytest

from panewright.price.sundries import Amounts, sundry_needs
from panewright.shelf.load import load_shelf
from panewright.shelf.shelf import Row, Sundry

SHELF = load_shelf()
POURED = Amounts(
    encapsulation="silicone pour",
    pane_m2=0.7,
    round_m=3.4,
    pour_kg=2.2,
    pour_l=2.1,
    diodes=2,
    corners=4,
    corner_screws=8,
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
    film = by_name(sundry_needs(replace(POURED, encapsulation="film"), SHELF), "EVA")
    assert film.one == Decimal("1.4")


def test_encapsulant_sold_by_the_litre_is_counted_in_litres():
    row = Row("silicone", Sundry("silicone", "encapsulant", 1.05), Decimal(30), "litre", "a test")
    shelf = replace(SHELF, sundries=(row,))
    assert by_name(sundry_needs(POURED, shelf), "silicone").one == Decimal("2.1")


@pytest.mark.parametrize(("diodes", "box"), [(0, "two"), (2, "two"), (3, "four")])
def test_more_diodes_take_the_larger_box(diodes, box):
    assert box in by_name(sundry_needs(replace(POURED, diodes=diodes), SHELF), "junction box").name


def test_a_use_that_the_shelf_lacks_is_listed_without_a_price():
    needs = sundry_needs(POURED, replace(SHELF, sundries=()))
    assert needs
    assert all(need.price is None for need in needs)


def test_flux_does_not_stay_in_the_panel():
    assert by_name(sundry_needs(POURED, SHELF), "no-clean flux").mass_kg == 0
