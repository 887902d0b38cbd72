"""Foam and carriers on the shelf: what is there, and what a wrong row is told."""

from __future__ import annotations

from decimal import Decimal
from itertools import pairwise

import pytest

from panewright.errors import ShelfError
from panewright.shelf.load import load_shelf

SHELF = load_shelf()
ROW = """
[[carriers]]
name = "Own van"
kind = "freight"
longest = "6 ft"
most_mass = "300 kg"
divisor = "139 in3/lb"
prices = "100 lb 20; 300 kg 60.50"
currency = "EUR"
source = "our own"
"""


def test_every_carrier_says_that_it_is_invented_and_prices_reach_its_mass():
    assert {carrier.kind for carrier in SHELF.carriers} == {"parcel", "freight"}
    for carrier in SHELF.carriers:
        assert "Invented" in carrier.name
        assert "Invented" in carrier.source
        assert carrier.bands[-1].to_kg >= carrier.most_kg
        assert all(one.price < other.price for one, other in pairwise(carrier.bands))


def test_an_own_table_takes_the_place_of_the_packaged_one(tmp_path):
    (tmp_path / "carriers.toml").write_text(ROW)
    (own,) = load_shelf(tmp_path).carriers
    assert own.name == "Own van"
    assert own.longest_mm == pytest.approx(1828.8)
    assert own.girth_mm is None
    assert own.divisor_cm3_kg == pytest.approx(5021.69, abs=0.01)
    assert [band.price for band in own.bands] == [Decimal(20), Decimal("60.50")]
    assert own.bands[0].to_kg == pytest.approx(45.359237)
    assert load_shelf(tmp_path).foams == SHELF.foams


@pytest.mark.parametrize(
    ("was", "now", "words"),
    [
        ('"100 lb 20; 300 kg 60.50"', '"100 lb 20"', "end before the mass"),
        ('"100 lb 20; 300 kg 60.50"', '"300 kg 60; 100 kg 20"', "not above the one before"),
        ('"100 lb 20; 300 kg 60.50"', '"100 lb; 300 kg 60"', "no mass with a price"),
        ('"100 lb 20; 300 kg 60.50"', '"dear"', "no mass with a price"),
        ('"100 lb 20; 300 kg 60.50"', '" ; "', "No price is written"),
        ('"freight"', '"pigeon"', "none of the choices"),
        ('"139 in3/lb"', '"139"', "divisor"),
        ('"EUR"', '"eur"', "no currency"),
        ("longest", "longes", "Is longest meant?"),
        ('"300 kg"', '"300"', "most_mass"),
    ],
)
def test_a_wrong_carrier_is_told(tmp_path, was, now, words):
    (tmp_path / "carriers.toml").write_text(ROW.replace(was, now, 1))
    with pytest.raises(ShelfError) as told:
        load_shelf(tmp_path)
    assert any(words in str(problem) for problem in told.value.problems)
    assert all(problem.cure for problem in told.value.problems)


def test_two_carriers_of_one_name_are_told(tmp_path):
    (tmp_path / "carriers.toml").write_text(ROW + ROW)
    with pytest.raises(ShelfError, match="twice"):
        load_shelf(tmp_path)


def test_a_foam_whose_curve_ends_before_its_best_place_is_told(tmp_path):
    text = '[[foams]]\nname = "x"\ndensity = "30 kg/m3"\nstress = "60 kPa"\nenergy = "60 kPa"\n'
    text += (
        'most_energy = "50 kPa"\nmost_static = "10 kPa"\nprice = "1"\nsold_by = "each"\nsource = "trial"\n'
    )
    (tmp_path / "foams.toml").write_text(text)
    with pytest.raises(ShelfError, match="ends before"):
        load_shelf(tmp_path)
