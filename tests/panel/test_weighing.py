"""What is told of a choice is true: pinned parts are 'as ordered', and every figure is there as a number."""

import math
from itertools import pairwise
from pathlib import Path

import pytest

from panewright.errors import OrderError
from panewright.order.parse import parse_order
from panewright.panel.choose import design_panel
from panewright.panel.design import Design
from panewright.shelf.load import load_shelf

EXAMPLES = Path(__file__).parents[2] / "examples"
JETTY = (EXAMPLES / "jetty.toml").read_text("utf-8")
FROST = (EXAMPLES / "frost-sensor.toml").read_text("utf-8")
LAYOUT = "columns = 6\nrows = 12\nbypass_diodes = 3"
PARTS = """
[parts]
tab = "2 x 0.15 mm"
bus = "6 x 0.3 mm"
glass = "6 mm low-iron tempered"
rail = "angle 50 x 50 x 4 mm"
brackets = 3
bracket_from_end = "300 mm"
sealant = "structural silicone, one part, large"
bite = "10 mm"
gap = "8 mm"
glue_line = "7 mm"
pour = "clear silicone encapsulant, slow"
back = "black back sheet 0.32 mm"
"""


def designed(parts: str = "", layout: str = "", load: str = "") -> Design:
    text = JETTY.replace("[layout]\n", f"[layout]\n{layout}\n").replace("[load]\n", f"[load]\n{load}\n")
    shelf, told = load_shelf(), parts.replace("[parts]\n", "").strip()
    text = text.replace("[parts]\n", f"[parts]\n{told}\n")
    return design_panel(parse_order(text, "jetty.toml", shelf), shelf)


@pytest.fixture(scope="module")
def open_order() -> Design:
    return designed()


@pytest.fixture(scope="module")
def pinned() -> Design:
    return designed(PARTS, LAYOUT)


def test_every_pinned_part_is_said_to_be_as_ordered(pinned):
    said = {choice.question: f"{choice.taken} {choice.why}" for choice in pinned.weighed}
    assert all("s ordered" in words for words in said.values()), said
    for pins, question in (
        (("columns", "rows", "bypass diodes"), "How are they laid?"),
        (("rail", "number of brackets", "place of the brackets"), "Which rail, held where?"),
        (("sealant", "bite", "glue line", "gap"), "Which bead?"),
    ):
        assert f"As ordered: {', '.join(pins)}." in said[question]


def test_nothing_is_as_ordered_where_nothing_is_pinned(open_order):
    told = {choice.question for choice in open_order.weighed if "s ordered" in choice.taken + choice.why}
    assert told == {"How do rails meet?"}  # the example itself says so


def test_no_pinned_part_is_called_the_lightest_or_the_best(pinned):
    for choice in pinned.weighed:
        if choice.question != "Which pane?":
            assert "lightest" not in choice.why, choice.why
            assert "loses least" not in choice.why, choice.why


def test_what_is_pinned_is_what_is_built(pinned):
    built, plan = pinned.structural, pinned.layup.plan
    assert (plan.columns, plan.rows, plan.substrings, plan.in_series) == (6, 12, 3, 72)
    assert (built.bead.bite_mm, built.bead.glue_line_mm, built.bead.gap_mm) == (10.0, 7.0, 8.0)
    assert (built.rail.name, built.pane.sheet.name) == ("angle 50 x 50 x 4 mm", "6 mm low-iron tempered")
    assert (pinned.electrical.tab.name, pinned.electrical.bus.name) == ("2 x 0.15 mm", "6 x 0.3 mm")


@pytest.mark.parametrize(
    "question", ["Which tabbing ribbon?", "Which bus ribbon?", "Which pane?", "What closes the back?"]
)
def test_the_shelf_is_weighed_beside_a_pin(pinned, question):
    (choice,) = [choice for choice in pinned.weighed if choice.question == question]
    assert len(choice.rows) > 3
    assert len({row[0] for row in choice.rows}) == len(choice.rows)


def test_every_rail_that_was_tried_is_shown_and_the_one_taken_on_each_number_of_brackets(open_order):
    (choice,) = [choice for choice in open_order.weighed if choice.question == "Which rail, held where?"]
    taken = open_order.structural.rail.name
    names = {row[choice.keys.index("rail")] for row in choice.rows_si}
    assert len(names) > 5
    assert sum(row[0] == taken for row in choice.rows) == 3
    assert {row[0] for row in choice.rows} == names
    rows = [dict(zip(choice.keys, row, strict=True)) for row in choice.rows_si]
    least = min(row["mass_kg"] for row in rows if row["rail"] == taken)
    lighter = [row for row in rows if row["mass_kg"] < least - 0.1]
    assert lighter
    assert all(row["fails_first"] for row in lighter)


def test_figures_are_numbers_under_keys_that_name_their_unit(open_order):
    for choice in open_order.weighed:
        assert choice.rows_si
        assert all(len(row) == len(choice.keys) for row in choice.rows_si)
        figures = [value for row in choice.rows_si for value in row if isinstance(value, float)]
        assert figures
        assert all(math.isfinite(value) for value in figures)
        assert all(len(row) == len(choice.columns) for row in choice.rows)


def test_the_count_table_reaches_past_both_ends(open_order):
    rows = open_order.electrical.string.rows
    acceptable = open_order.electrical.string.acceptable
    counts = [row.cells for row in rows]
    assert counts == sorted(set(counts))
    assert {acceptable[0] - 1, acceptable[-1] + 1} <= set(counts)
    assert all(one.hot_vmp_v < two.hot_vmp_v for one, two in pairwise(rows))


def test_brackets_that_cross_are_a_mistake_of_the_order():
    with pytest.raises(OrderError, match="cross"):
        designed('[parts]\nbracket_from_end = "900 mm"')


def test_brackets_at_the_very_end_of_the_rail_fail():
    design = designed('[parts]\nbracket_from_end = "10 mm"\nrail = "angle 50 x 50 x 5 mm"')
    failing = {check.rule for check in design.checks if not check.passed}
    assert "outer brackets within the rail" in failing


def test_columns_alone_choose_a_count_that_fills_them():
    assert designed(layout="columns = 5").layup.plan.columns == 5


@pytest.mark.parametrize(("coldest", "holds"), [("5 degC", True), ("-3 degC", False)])
def test_an_lfp_battery_must_not_freeze_while_it_is_charged(coldest, holds):
    design = designed(load=f'battery_coldest = "{coldest}"')
    (check,) = [check for check in design.checks if "LFP" in check.rule]
    assert check.passed is holds


def test_that_the_battery_stands_indoors_is_an_assumption(open_order):
    assumed = {each.key: each.value for each in open_order.order.assumptions}
    assert assumed["load.battery_coldest"] == "5 degC"
    assert assumed["load.battery_temperature"] == "25 degC"


def test_a_cold_lead_battery_asks_for_more_voltage():
    text = JETTY.replace('battery = "lfp"', 'battery = "agm"')
    shelf = load_shelf()
    windows = [
        design_panel(parse_order(order, "x", shelf), shelf).electrical.string.window.absorption_v
        for order in (text, text.replace("[load]\n", '[load]\nbattery_temperature = "5 degC"\n'))
    ]
    assert windows[1] - windows[0] == pytest.approx(12 * 0.003 * 20)


def test_the_jetty_s_panel_comes_out_as_six_columns_of_twelve_unpinned(open_order):
    wishes, plan = open_order.order.wishes, open_order.layup.plan
    assert (wishes.in_series, wishes.columns, wishes.rows, wishes.substrings) == (None, None, None, None)
    assert (plan.in_series, plan.columns, plan.rows, plan.substrings) == (72, 6, 12, 3)
    assert open_order.proven


def test_a_shaded_cell_is_held_at_the_record_cold():
    mild, cold = (
        next(check for check in design.checks if check.rule == "shaded cell stays out of breakdown")
        for design in (designed_at(f"{degrees} degC") for degrees in (-5, -25))
    )
    assert cold.demand > mild.demand * 1.05
    assert cold.limit == mild.limit == 18.0


def designed_at(cold: str) -> Design:
    shelf = load_shelf()
    text = JETTY.replace('record_cold = "-19 degC"', f'record_cold = "{cold}"').replace("60 V", "70 V")
    return design_panel(parse_order(text, "x", shelf), shelf)


def test_a_pane_that_weighs_more_than_the_panel_may_counts_against_a_lay_out():
    design = designed(layout="").weighed
    light = JETTY.replace('most_mass = "35 kg"', 'most_mass = "9 kg"')
    shelf = load_shelf()
    heavy = design_panel(parse_order(light, "x", shelf), shelf).weighed
    told = [choice for choice in heavy if choice.question == "How are they laid?"]
    assert "kg of glass, 9 at most" in told[0].rows[0][1]
    assert not any("kg of glass" in row[1] for choice in design for row in choice.rows if len(row) > 1)


def test_brackets_stand_where_the_order_puts_each_of_them():
    rail = 'rail = "angle 50 x 50 x 4 mm"\n'
    design = designed(f'[parts]\n{rail}bracket_places = "200 mm, 700 mm, 1500 mm"')
    side = next(piece for piece in design.structural.frame.pieces if piece.name == "right rail")
    assert [hole.along_mm for hole in side.holes if hole.purpose == "bracket"] == [200.0, 700.0, 1500.0]
    (words,) = (each for each in design.weighed if each.question == "Which rail, held where?")
    assert "3 brackets a long side, at 200" in words.taken
    assert "place of the brackets" in words.why


def test_brackets_alike_from_both_ends_are_judged_alike_whichever_way_they_are_ordered():
    rail = 'rail = "angle 50 x 50 x 4 mm"\nbrackets = 2\n'
    long_mm = designed(f"[parts]\n{rail}").structural.rail_proof.length_mm
    one = designed(f'[parts]\n{rail}bracket_from_end = "300 mm"').structural.rail_proof
    other = designed(f'[parts]\n{rail}bracket_places = "300 mm, {long_mm - 300:g} mm"').structural.rail_proof
    assert other.service.bead.sag_mm == pytest.approx(one.service.bead.sag_mm, rel=1e-6)
    assert other.design.free.stress_mpa == pytest.approx(one.design.free.stress_mpa, rel=1e-6)


def test_a_bypass_diode_that_is_ordered_is_built_in_though_the_cells_would_bear_without():
    few = FROST.replace("[layout]\n", "[layout]\ncolumns = 2\nbypass_diodes = {}\n")
    shelf = load_shelf()
    bare = design_panel(parse_order(few.replace("bypass_diodes = {}\n", ""), "frost.toml", shelf), shelf)
    ordered = design_panel(parse_order(few.format(1), "frost.toml", shelf), shelf)
    assert bare.electrical.bypass is None
    assert bare.amounts.diodes == 0
    assert ordered.electrical.bypass is not None
    assert ordered.amounts.diodes == 1


def test_brackets_past_the_rail_are_a_mistake_of_the_order():
    with pytest.raises(OrderError, match="past its end"):
        designed('[parts]\nbracket_places = "200 mm, 2500 mm"')
