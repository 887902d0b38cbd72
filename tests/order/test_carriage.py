"""What an order may say of carriage, and what it is told where that is wrong."""

from __future__ import annotations

import pytest

from panewright.errors import OrderError
from panewright.order.parse import parse_order
from panewright.shelf.load import load_shelf

SHELF = load_shelf()
SHORT = """
[order]
name = "Trial"
[load]
battery = "agm"
battery_voltage = "12 V"
controller = "direct"
controller_most = "50 V"
[cell]
name = "156 mm poly"
[site]
code = "EN"
wind = "26 m/s"
wind_code = "EN 1991-1-4"
wind_kind = "10 min mean"
wind_return = "50 yr"
snow = "0.8 kPa"
record_cold = "-14 degC"
record_heat = "37 degC"
tilt = "35 deg"
"""


def carriage(text="", rest=""):
    return parse_order(f"{SHORT}{rest}[carriage]\n{text}\n", "trial.toml", SHELF).carriage


def test_an_order_that_says_nothing_leaves_it_open():
    made = carriage()
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
    assert carriage(rest=front).lay == "flat"
    assert carriage('lay = "on edge"', front).lay == "on edge"


def test_stated_values_come_out_in_millimetres_and_kilograms():
    made = carriage('by = "freight"\nway = "pallet"\npanels = 6\nmost_mass = "60 lb"\ndrop_height = "18 in"')
    assert (made.by, made.way, made.most_panels, made.drop_mm) == ("freight", "pallet", 6, 457.2)
    assert made.most_kg == pytest.approx(27.2155422)


def test_a_foam_is_named_or_described_in_full():
    assert [foam.name for foam in carriage('foam = "polyethylene foam, medium"').foams] == [
        "polyethylene foam, medium"
    ]
    full = '{ density = "25 kg/m3", stress = "40 kPa", energy = "40 kPa", most_energy = "80 kPa", '
    made = carriage(f'foam = {full}most_static = "8 kPa" }}')
    assert made.foams[0].stress_pa == 40e3


@pytest.mark.parametrize(
    ("line", "key"),
    [
        ('by = "pigeon"', "carriage.by"),
        ('way = "pallets of"', "carriage.way"),
        ("panels = 0", "carriage.panels"),
        ("panels = 101", "carriage.panels"),
        ('most_mass = "30"', "carriage.most_mass"),
        ('drop_height = "3 m"', "carriage.drop_height"),
        ('foam = "rubble"', "carriage.foam"),
        ('fragility = "weak"', "carriage.fragility"),
        ('hands = "2"', "carriage.hands"),
    ],
)
def test_a_mistake_is_told_at_its_key_with_a_cure(line, key):
    with pytest.raises(OrderError) as told:
        carriage(line)
    (problem,) = told.value.problems
    assert problem.key == key
    assert problem.reason
    assert problem.cure
