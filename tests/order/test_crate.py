"""What an order may say of its crate, and what it is told where that is wrong."""

from __future__ import annotations

import pytest

from panewright.desk.orders.form import edited, value_of
from panewright.errors import OrderError
from panewright.order.parse import parse_order
from panewright.shelf.load import load_shelf
from short_order import AGM, short_order

SHELF = load_shelf()
SHORT = short_order(load=AGM)


def crate(text="", rest=""):
    return parse_order(f"{SHORT}{rest}[crate]\n{text}\n", "trial.toml", SHELF).crate


def test_an_order_that_says_nothing_leaves_it_open():
    made = crate()
    assert (made.by, made.way, made.most_panels, made.drop_mm) == (None, None, None, None)
    assert (made.lay, made.handling, made.fragility, made.most_kg) == (
        "on edge",
        "ordinary",
        "delicate",
        30.0,
    )
    assert made.carriers == SHELF.carriers
    assert made.foams == tuple(row.part for row in SHELF.foams)


def test_plastic_lies_flat_unless_the_order_says_otherwise():
    front = '[parts]\nfront = "acrylic"\n'
    assert crate(rest=front).lay == "flat"
    assert crate('lay = "on edge"', front).lay == "on edge"


def test_stated_values_come_out_in_millimetres_and_kilograms():
    made = crate('by = "freight"\nway = "pallet"\npanels = 6\nmost_mass = "60 lb"\ndrop_height = "18 in"')
    assert (made.by, made.way, made.most_panels, made.drop_mm) == ("freight", "pallet", 6, 457.2)
    assert made.most_kg == pytest.approx(27.2155422)


def test_a_foam_is_named_or_described_in_full():
    assert [foam.name for foam in crate('foam = "polyethylene foam, medium"').foams] == [
        "polyethylene foam, medium"
    ]
    full = '{ density = "25 kg/m3", stress = "40 kPa", energy = "40 kPa", most_energy = "80 kPa", '
    made = crate(f'foam = {full}most_static = "8 kPa" }}')
    assert made.foams[0].stress_pa == 40e3


@pytest.mark.parametrize(
    ("line", "key"),
    [
        ('by = "pigeon"', "crate.by"),
        ('way = "pallets of"', "crate.way"),
        ("panels = 0", "crate.panels"),
        ("panels = 101", "crate.panels"),
        ('most_mass = "30"', "crate.most_mass"),
        ('drop_height = "3 m"', "crate.drop_height"),
        ('foam = "rubble"', "crate.foam"),
        ('fragility = "weak"', "crate.fragility"),
        ('hands = "2"', "crate.hands"),
    ],
)
def test_a_mistake_is_told_at_its_key_with_a_cure(line, key):
    with pytest.raises(OrderError) as told:
        crate(line)
    (problem,) = told.value.problems
    assert problem.key == key
    assert problem.reason
    assert problem.cure


def test_an_older_order_says_the_same_under_the_older_name():
    old = parse_order(f'{SHORT}[carriage]\nby = "freight"\npanels = 6\n', "trial.toml", SHELF)
    assert old.crate == crate('by = "freight"\npanels = 6')


def test_a_mistake_under_the_older_name_is_told_on_its_own_line():
    text = f'{SHORT}[carriage]\nway = "by hand"\nby = "pigeon"\n'
    with pytest.raises(OrderError) as told:
        parse_order(text, "trial.toml", SHELF)
    (problem,) = told.value.problems
    assert text.split("\n")[problem.line - 1] == 'by = "pigeon"'
    assert problem.key == "crate.by"


def test_both_names_at_once_are_one_mistake():
    with pytest.raises(OrderError) as told:
        crate('by = "freight"', '[carriage]\nby = "parcel"\n')
    (problem,) = told.value.problems
    assert "both stand" in problem.reason
    assert "[crate]" in problem.cure


def test_an_older_order_is_edited_where_it_stands():
    text = f'{SHORT}[carriage]\nby = "freight"\n'
    changed = edited(text, "crate.by", "parcel")
    assert value_of(changed, "crate.by") == "parcel"
    assert "[crate]" not in changed
    assert parse_order(changed, "trial.toml", SHELF).crate.by == "parcel"
