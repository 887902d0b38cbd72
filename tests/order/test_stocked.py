"""A shelf that holds none of a kind is told at its key, before anything is designed from nothing."""

from dataclasses import replace
from pathlib import Path

import pytest

from panewright.errors import OrderError
from panewright.order.parse import parse_order
from panewright.panel.choose import design_panel
from panewright.shelf.load import load_shelf

SHELF = load_shelf()
HENHOUSE = (Path(__file__).parents[2] / "examples" / "henhouse.toml").read_text("utf-8")


def told(shelf, more=""):
    with pytest.raises(OrderError) as mistake:
        parse_order(HENHOUSE + more, "henhouse.toml", shelf)
    return {problem.key: problem for problem in mistake.value.problems}


@pytest.mark.parametrize(
    ("table", "key"),
    [
        ("tabs", "parts.tab"),
        ("buses", "parts.bus"),
        ("sheets", "parts.glass"),
        ("rails", "parts.rail"),
        ("sealants", "parts.sealant"),
        ("pours", "parts.pour"),
        ("backs", "parts.back"),
        ("foams", "crate.foam"),
        ("cells", "cell.name"),
    ],
)
def test_a_table_without_a_row_is_told_with_its_cure(table, key):
    problem = told(replace(SHELF, **{table: ()}))[key]
    assert "no row" in problem.reason or problem.reason.startswith("The shelf has no ")
    assert "in full" in problem.cure


def test_only_what_the_order_takes_is_missed():
    assert parse_order(HENHOUSE, "henhouse.toml", replace(SHELF, films=()))
    assert list(told(replace(SHELF, films=()), '\n[parts]\nencapsulation = "film"\n')) == ["parts.film"]
    glass = tuple(row for row in SHELF.sheets if row.part.material == "glass")
    acrylic = told(replace(SHELF, sheets=glass), '\n[parts]\nfront = "acrylic"\n')
    assert acrylic["parts.glass"].reason == "The shelf has no sheet of acrylic."


def test_a_diode_that_is_ordered_but_not_there_is_told():
    assert list(told(replace(SHELF, bypasses=()), "\n[layout]\nbypass_diodes = 1\n")) == [
        "layout.bypass_diodes"
    ]


def test_a_shelf_without_diodes_makes_panels_without_and_their_checks_say_what_that_means():
    shelf = replace(SHELF, bypasses=())
    design = design_panel(parse_order(HENHOUSE, "henhouse.toml", shelf), shelf)
    assert design.electrical.bypass is None
    assert design.layup.plan.substrings == 1
    failed = {check.rule for check in design.checks if not check.passed}
    assert "shaded cell stays out of breakdown" in failed
