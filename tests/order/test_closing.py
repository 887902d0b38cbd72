"""The [closing] section: what does not go with the encapsulation, and what no table has, is told."""

from pathlib import Path

import pytest

from panewright.enclosure.inhibition import INHIBITORS
from panewright.errors import OrderError
from panewright.order.parse import parse_order
from panewright.order.schema import KEYS
from panewright.order.sections.closing import BELONGS
from panewright.shelf.load import load_shelf

SHELF = load_shelf()
HENHOUSE = (Path(__file__).parents[2] / "examples" / "henhouse.toml").read_text("utf-8")


def parsed(closing="", parts=""):
    return parse_order(f"{HENHOUSE}\n[parts]\n{parts}\n[closing]\n{closing}\n", "henhouse.toml", SHELF)


def told(closing="", parts=""):
    with pytest.raises(OrderError) as mistake:
        parsed(closing, parts)
    assert all(problem.reason and problem.cure for problem in mistake.value.problems)
    return {problem.key: str(problem) for problem in mistake.value.problems}


@pytest.mark.parametrize("kind", list(BELONGS))
def test_keys_of_another_encapsulation_are_told(kind):
    for other, keys in BELONGS.items():
        closing = "\n".join(KEYS[key].assignment() for key in keys if key.startswith("closing."))
        parts = "\n".join(KEYS[key].assignment() for key in keys if key.startswith("parts."))
        parts = f'encapsulation = "{kind}"\n{parts}'
        if kind == other:
            assert parsed(closing.replace('"vented"', '"sealed"'), parts).parts.encapsulation == kind
        else:
            assert set(told(closing, parts)) == set(keys)


@pytest.mark.parametrize(
    ("near", "words"),
    [
        ("latex glove", "Did you mean latex gloves"),
        ("kryptonite", "no kryptonite"),
        (" , ", "Nothing is written"),
    ],
)
def test_what_the_table_lacks_is_told_with_what_it_has(near, words):
    said = told(f'near = "{near}"')["closing.near"]
    assert words in said or "latex gloves" in said


def test_what_lies_about_is_read_in_any_case_and_once():
    order = parsed('near = "Soft PVC, LATEX gloves, soft pvc"')
    assert order.closing.near == ("soft PVC", "latex gloves")
    assert parsed('near = "None"').closing.near == ()
    assert parsed().closing.near is None
    assert all("," not in name for name in INHIBITORS)


def test_an_order_that_is_silent_of_what_lies_about_says_so_among_its_assumptions():
    said = {each.key: each for each in parsed().assumptions}
    assert "trial patch" in said["closing.near"].reason
    assert said["closing.shop_temperature"].value == "23 degC"
    assert "closing.gap" not in said


def test_a_vented_gap_has_no_desiccant():
    said = told('desiccant = "50 g"', 'encapsulation = "air gap"')
    assert "vented" in said["closing.desiccant"]
    assert (
        parsed('gap = "sealed"\ndesiccant = "50 g"', 'encapsulation = "air gap"').closing.desiccant_g == 50.0
    )


@pytest.mark.parametrize("ratio", ["ten to one", "10 : 0", "1", ": 1"])
def test_a_ratio_is_two_numbers(ratio):
    times = 'pot_life = "60 min", full_cure = "24 h", oven_cure = "20 min", oven = "100 degC"'
    own = f'pour = {{ ratio = "{ratio}", {times} }}'
    assert "two numbers" in told("", own)["parts.pour.ratio"]


def test_an_oven_slower_than_the_room_is_told():
    times = 'pot_life = "60 min", full_cure = "1 h", oven_cure = "2 h", oven = "100 degC"'
    own = f'pour = {{ ratio = "1 : 1", {times} }}'
    assert "oven cures hotter and faster" in told("", own)["parts.pour"]


def test_a_hold_is_read_in_minutes_and_a_shop_in_fahrenheit():
    film = parsed('hold = "20 min"\nshop_temperature = "68 degF"', 'encapsulation = "film"').closing
    assert (film.hold_min, round(film.shop_c, 6)) == (20.0, 20.0)
