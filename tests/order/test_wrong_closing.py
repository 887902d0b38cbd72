"""Zero, negative, absurd and unit-less figures of closing, crate, parts and breaks: told once each."""

from pathlib import Path

import pytest

from panewright.errors import OrderError
from panewright.order.parse import parse_order
from panewright.shelf.load import load_shelf

SHELF = load_shelf()
KIOSK = (
    (Path(__file__).parents[2] / "examples" / "kiosk.toml").read_text("utf-8").partition("[parts.rail]")[0]
)
POUR = (
    'pour = { ratio = "1 : 1", pot_life = "60 min", full_cure = "24 h", oven_cure = "20 min", '
    'oven = "100 degC", density = "1030 kg/m3", viscosity = "1.5 Pa s", at = "23 degC" }'
)
FILM = (
    'film = { kind = "EVA", thickness = "0.45 mm", cure = "8 min", density = "960 kg/m3", soft = "80 degC" }'
)
BACK = (
    'back = { kind = "plastic", thickness = "4 mm", holds = "1000 V", bears = "90 degC", water = "1 g/m2/d", '
    'conducts = "0.2 W/mK", shear = "20 MPa", mass = "3.6 kg", stiff = "400 MPa", white = "60 %" }'
)
GAP = 'encapsulation = "air gap"'
ABSURD = ('"0 {}"', '"-5 {}"', '"1e9 {}"', '"nan {}"', '"12"', "12", '"3 parsec"', "true", '""')


def problems(parts="", closing="", crate="", money=""):
    text = f"{KIOSK}\n[parts]\n{parts}\n[closing]\n{closing}\n[crate]\n{crate}\n[money]\n{money}\n"
    try:
        parse_order(text, "order.toml", SHELF)
    except OrderError as mistake:
        return mistake.problems
    return ()


def told_once(found, key):
    assert [problem.key for problem in found] == [key]
    (problem,) = found
    assert problem.line
    assert problem.reason
    assert problem.cure
    assert problem.value or problem.value == ""


@pytest.mark.parametrize("spoilt", ABSURD)
@pytest.mark.parametrize(
    ("section", "key", "unit"),
    [
        ("closing", "shop_temperature", "degC"),
        ("crate", "most_mass", "kg"),
        ("crate", "drop_height", "mm"),
        ("crate", "fragility", "gn"),
    ],
)
def test_a_measured_key_of_closing_or_crate(section, key, unit, spoilt):
    cold = key == "shop_temperature" and spoilt in ABSURD[:2]  # a cold shop is a shop: a check tells it
    found = problems(**{section: f"{key} = {spoilt.format(unit)}"})
    if cold:
        assert found == ()
    else:
        told_once(found, f"{section}.{key}")


@pytest.mark.parametrize("spoilt", ABSURD)
@pytest.mark.parametrize(
    ("parts", "key", "unit"),
    [
        (POUR, "pot_life", "min"),
        (POUR, "density", "kg/m3"),
        (POUR, "viscosity", "Pa s"),
        (FILM, "thickness", "mm"),
        (FILM, "cure", "min"),
        (BACK, "thickness", "mm"),
        (BACK, "stiff", "MPa"),
        (BACK, "shear", "MPa"),
        (BACK, "mass", "kg"),
    ],
)
def test_a_described_pour_film_or_back(parts, key, unit, spoilt):
    way = {POUR: "", FILM: 'encapsulation = "film"\n', BACK: f"{GAP}\n"}[parts]
    assert problems(parts=way + parts) == ()
    start, _, after = parts.partition(f"{key} = ")
    rest = after.partition('"')[2].partition('"')[2]
    found = problems(parts=f"{way}{start}{key} = {spoilt.format(unit)}{rest}")
    told_once(found, f"{parts.partition(' ')[0].join(('parts.', ''))}.{key}")


@pytest.mark.parametrize(
    "breaks", ['"0, 5"', '"-1"', '"1.5"', '"1, 5 mm"', '"1e9"', '"five"', "5", '","', '"1;5"']
)
def test_numbers_of_breaks(breaks):
    told_once(problems(money=f"breaks = {breaks}"), "money.breaks")


@pytest.mark.parametrize("count", ["0", "-1", "1.5", '"2"', "101"])
def test_panels_in_a_crate(count):
    told_once(problems(crate=f"panels = {count}"), "crate.panels")


def test_mixed_units_are_read():
    us = 'drop_height = "30 in"\nmost_mass = "60 lb"'
    back = (
        BACK.replace('"4 mm"', '"5/32 in"').replace('"90 degC"', '"194 degF"').replace('"3.6 kg"', '"7.9 lb"')
    )
    assert problems(parts=f"{GAP}\n{back}", crate=us, closing='shop_temperature = "73 degF"') == ()
