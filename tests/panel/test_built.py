"""One serial as it really is: nothing happened is the design; what happened is the only difference."""

import json
import math
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from panewright.cell.damage import Cracked
from panewright.circuit.damage import Fault, JointCold, damaged
from panewright.circuit.maxima import key_points
from panewright.circuit.place import CellAt
from panewright.curve.readings import Readings
from panewright.errors import BuiltError
from panewright.order.parse import parse_order
from panewright.panel.built import KEYS, as_built, build, planned_part
from panewright.panel.built_record import as_record, from_record
from panewright.panel.choose import design_panel
from panewright.panel.electric.own import Rated
from panewright.panel.happened import Batch, Deviation, Happened, PlacedFrom, Redone, Substitution
from panewright.panel.what_if import CellState, what_if
from panewright.shelf.load import load_shelf

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
SHELF = load_shelf()


@cache
def designed(name, parts=""):
    text = next(path for path in EXAMPLES if path.stem == name).read_text("utf-8")
    if parts:
        text = (
            text.replace("[parts]", f"[parts]\n{parts}") if "[parts]" in text else f"{text}\n[parts]\n{parts}"
        )
    return design_panel(parse_order(text, name, SHELF), SHELF)


def happened(name="jetty", **more):
    return Happened(designed(name).label.serials[0], **more)


def built(name="jetty", **more):
    return build(designed(name), SHELF, happened(name, **more))


def swap(key, really, reason="the other was sold out"):
    return (Substitution(key, really, reason),)


@pytest.mark.parametrize("name", [path.stem for path in EXAMPLES])
def test_nothing_happened_is_the_design_to_the_last_digit(name):
    design = designed(name)
    made = built(name)
    assert made.checks == design.checks
    assert made.changed == ()
    assert made.points == design.electrical.curves[0].points
    assert made.mass_kg == design.structural.mass.total_kg


@pytest.mark.parametrize(
    "parts",
    ['bracket_from_end = "260 mm"', 'bracket_places = "200 mm, 700 mm, 1200 mm"', 'corner = "welded"'],
)
def test_it_is_so_too_where_the_order_pins_brackets_and_corners(parts):
    text = EXAMPLES[[path.stem for path in EXAMPLES].index("kiosk")].read_text("utf-8")
    lines = [line for line in text.splitlines() if not line.startswith(("bracket", "corner"))]
    text = "\n".join(lines)
    text = text.replace("[parts]", f"[parts]\n{parts}") if "[parts]" in text else f"{text}\n[parts]\n{parts}"
    design = design_panel(parse_order(text, "kiosk", SHELF), SHELF)
    made = build(design, SHELF, Happened(design.label.serials[0]))
    assert made.changed == ()


def test_two_sheets_that_ask_for_one_another_end_in_the_thicker():
    """Under the heat behind 8 mm the count asks for 6 mm, and behind 6 mm for 8 mm."""
    design = designed("jetty", 'held = "two long sides"')
    assert design.structural.pane.sheet.nominal_mm == 8
    assert build(design, SHELF, Happened(design.label.serials[0])).changed == ()


def test_the_panel_as_built_has_the_pane_and_the_holes_of_the_design():
    design = designed("jetty")
    other = as_built(design, SHELF, happened(substitutions=swap("parts.glass", "4 mm low-iron tempered")))
    assert other.layup == design.layup
    assert other.structural.frame.outer_width_mm == design.structural.frame.outer_width_mm
    assert other.structural.brackets == design.structural.brackets
    assert other.structural.bead == design.structural.bead


def test_other_corner_screws_do_not_change_the_clip_that_was_drilled_for():
    design = designed("jetty")
    other = as_built(design, SHELF, happened(substitutions=swap("parts.corner_fastener", "screw M5")))
    assert design.amounts.joint.fastener != other.amounts.joint.fastener
    assert design.amounts.joint.clip == other.amounts.joint.clip


def test_thinner_glass_changes_what_it_should_and_names_what_was_planned():
    thin = next(row for row in SHELF.sheets if row.part.treatment == "tempered" and row.part.nominal_mm < 3.5)
    made = built(substitutions=swap("parts.glass", thin.name))
    assert made.happened.substitutions[0].planned == designed("jetty").structural.pane.sheet.name
    rules = {each.rule for each in made.changed}
    assert any("pane" in rule or "glass" in rule for rule in rules)
    assert not any("breakdown" in rule for rule in rules)
    assert made.mass_kg < designed("jetty").structural.mass.total_kg


def worst(checks, words):
    found = [check for check in checks if words in check.rule]
    return max((check.utilisation for check in found), default=0.0)


@pytest.mark.parametrize("name", ["jetty", "workshop", "henhouse"])
def test_thinner_glass_never_makes_the_pane_better(name):
    rows = [row for row in SHELF.sheets if row.part.material == "glass" and row.part.treatment == "tempered"]
    plain = [row for row in rows if row.part.plies is None and row.part.surface == "plain"]
    plain.sort(key=lambda row: -row.part.thickness_mm)
    assert len(plain) > 6
    before = None
    for row in plain:
        made = built(name, substitutions=swap("parts.glass", row.name))
        used = [check.utilisation for check in made.checks if check.room == "glass"]
        if before is not None:
            assert all(now >= then * (1 - 1e-9) for now, then in zip(used, before, strict=True))
        before = used


def test_a_lighter_rail_never_makes_the_frame_better():
    angles = [row for row in SHELF.rails if row.part.profile == "angle"]
    one_seat = [row for row in angles if row.part.seat_mm == 40.0 and row.part.upright_mm == 40.0]
    rows = sorted(one_seat, key=lambda row: row.part.wall_mm)
    assert len(rows) > 1
    sags = [worst(built(substitutions=swap("parts.rail", row.name)).checks, "rail stress") for row in rows]
    assert sags == sorted(sags, reverse=True)


def test_cells_of_their_own_cracks_and_cold_joints_stand_in_the_circuit():
    design = designed("kiosk")
    network = damaged(
        design.electrical.network,
        Fault(Cracked(0.2), CellAt(0, 9)),
        Fault(JointCold(0.01), CellAt(0, 20)),
    )
    made = built("kiosk", deviations=(Deviation("crack", 9, 0.2), Deviation("cold joint", 20, 0.01)))
    assert made.points.power_w == pytest.approx(key_points(network).power_w, rel=1e-12)


def test_a_built_panel_and_a_what_if_agree_on_a_weaker_cell():
    weak = Rated(current=0.93, power=0.93)
    made = built("kiosk", cells=(PlacedFrom(5, "L1", "a5", weak),))
    seen = what_if(designed("kiosk"), {5: CellState(swapped=weak)})
    assert made.points.power_w == pytest.approx(seen.points.power_w, rel=1e-12)


def test_a_cracked_cell_changes_its_hot_spot():
    made = built("kiosk", deviations=(Deviation("crack", 9, 0.4),))
    assert "shaded cell stays cool enough" in {each.rule for each in made.changed}


def test_a_cell_cracked_through_leaves_nothing_without_a_diode_and_the_rest_with_one():
    assert built("frost-sensor", deviations=(Deviation("crack", 9, 1.0),)).points.power_w < 1e-6
    whole = designed("jetty").electrical.curves[0].points.power_w
    made = built(deviations=(Deviation("crack", 9, 1.0),))
    assert 0.6 < made.points.power_w / whole < 0.67


@pytest.mark.parametrize(
    ("deviation", "words"),
    [
        (Deviation("gap", amount=2.0), "gap for heat"),
        (Deviation("glue line", amount=1.5), "glue line for heat"),
        (Deviation("bite", amount=4.0), "bite"),
        (Deviation("bracket", 1, 20.0), "long rail"),
    ],
)
def test_a_size_measured_short_is_judged(deviation, words):
    made = built(deviations=(deviation,))
    assert any(words in each.rule for each in made.changed)
    assert any(each.broken for each in made.changed)
    assert not made.proven


def test_a_gap_as_designed_changes_nothing():
    gap = designed("jetty").structural.bead.gap_mm
    assert built(deviations=(Deviation("gap", amount=gap),)).changed == ()


BAD = {
    "key": ({"substitutions": swap("parts.glas", "4 mm")}, "parts.glas", "Is parts.glass meant?"),
    "shelf": ({"substitutions": swap("parts.rail", "angle 40 x 40 x 9 mm")}, "parts.rail", "no such part"),
    "reason": ({"substitutions": swap("parts.rail", "x", " ")}, "parts.rail", "without a reason"),
    "place": ({"cells": (PlacedFrom(99, "L1"),)}, "cell", "no such place"),
    "twice": ({"cells": (PlacedFrom(3, "L1"), PlacedFrom(3, "L1"))}, "cell", "Two cells"),
    "mark": ({"cells": (PlacedFrom(3, "L1", "a"), PlacedFrom(4, "L1", "a"))}, "mark", "two places"),
    "crack": ({"deviations": (Deviation("crack", 3, 1.2),)}, "deviation 1", "share"),
    "bracket": ({"deviations": (Deviation("bracket", 9, 100.0),)}, "deviation 1", "no such bracket"),
    "joint": ({"joints": (Redone("tab", 99),)}, "joint 1", "no such joint"),
}


@pytest.mark.parametrize("name", BAD)
def test_what_cannot_be_is_told_once_with_its_place_and_cure(name):
    more, key, words = BAD[name]
    with pytest.raises(BuiltError, match=words.replace("?", r"\?")) as told:
        built(**more)
    (problem,) = told.value.problems
    assert problem.key.startswith(key)
    assert problem.value
    assert problem.cure


def test_a_serial_of_another_order_is_refused():
    with pytest.raises(BuiltError, match="no such serial"):
        build(designed("jetty"), SHELF, Happened("XX-1"))


@pytest.mark.parametrize("closed", ["", 'encapsulation = "film"\n', 'encapsulation = "air gap"\n'])
def test_every_key_of_a_substitution_can_be_read(closed):
    design = designed("jetty", closed)
    read = []
    for key in KEYS:
        part = planned_part(design, key)
        if part != "none":
            made = build(design, SHELF, happened(substitutions=swap(key, part)))
            assert made.changed == (), key
            read.append(key)
    lacking = {"": {"parts.film"}, "film": {"parts.pour"}, "air": {"parts.pour", "parts.film"}}
    assert set(KEYS) - set(read) == lacking[closed.partition('"')[2].partition(" ")[0].strip('"\n')]


def test_another_pour_is_judged_by_its_own_pot_life_and_cure():
    slow = built(substitutions=swap("parts.pour", "clear silicone encapsulant, slow"))
    made = as_built(designed("jetty"), SHELF, slow.happened)
    assert made.closing.pour.silicone.name == "clear silicone encapsulant, slow"
    assert slow.happened.substitutions[0].planned == designed("jetty").closing.pour.silicone.name
    other = replace(
        designed("jetty").order, parts=replace(designed("jetty").order.parts, pour=made.closing.pour.silicone)
    )
    asked = {check.rule: check for check in design_panel(other, SHELF).closing.checks}
    mine = {check.rule: check for check in made.closing.checks}
    assert mine == asked


def test_another_film_is_judged_by_its_own_schedule():
    design = designed("jetty", 'encapsulation = "film"\n')
    names = [row.name for row in SHELF.films]
    really = next(name for name in names if name != design.closing.laminating.film.name)
    made = as_built(design, SHELF, happened(substitutions=swap("parts.film", really)))
    assert made.closing.laminating.film.name == really
    assert made.closing.film_sheet != design.closing.film_sheet or made.checks != design.checks


@pytest.mark.parametrize("really", [row.name for row in SHELF.backs])
def test_another_back_is_judged_by_what_it_holds_and_weighs(really):
    design = designed("jetty")
    made = built(substitutions=swap("parts.back", really))
    back = SHELF.row(really).part
    assert as_built(design, SHELF, made.happened).closing.back == back
    heavier = back.mass_kg_m2 - design.closing.back.mass_kg_m2
    assert (made.mass_kg - design.structural.mass.total_kg) * heavier >= 0
    if abs(heavier) > 0.1:
        assert made.mass_kg != design.structural.mass.total_kg


@pytest.mark.parametrize(
    ("closed", "key", "really"),
    [
        ('encapsulation = "film"\n', "parts.pour", "clear silicone encapsulant, slow"),
        ("", "parts.film", "EVA film 0.45 mm"),
        ('encapsulation = "air gap"\n', "parts.film", "EVA film 0.45 mm"),
    ],
)
def test_what_the_panel_has_not_inside_cannot_be_another(closed, key, really):
    with pytest.raises(BuiltError, match="The panel is closed by") as told:
        build(designed("jetty", closed), SHELF, happened(substitutions=swap(key, really)))
    (problem,) = told.value.problems
    assert problem.key == key
    assert problem.cure


FULL = {
    "cells": (
        PlacedFrom(1, "L1", "a1", Rated(0.98, 0.97)),
        PlacedFrom(2, "L1", "a2", Readings(4.9, 0.62, 990.0, 27.0)),
        PlacedFrom(3, "L2"),
    ),
    "joints": (Redone("tab", 7, 2, "dull"),),
    "substitutions": swap("parts.tab", "1.6 x 0.2 mm"),
    "deviations": (Deviation("cold joint", 4, math.inf, "came off"), Deviation("other", note="a scratch")),
    "batches": (Batch("silicone", "B7", 0.4, "kg"),),
}


def test_a_record_comes_back_as_it_went():
    tab = SHELF.tabs[0].name
    made = built(**{**FULL, "substitutions": swap("parts.tab", tab)})
    text = json.dumps(as_record(made), allow_nan=False)
    assert from_record(json.loads(text)) == made


def test_a_record_of_something_else_is_refused():
    record = as_record(built())
    with pytest.raises(ValueError, match="is written with"):
        from_record({**record, "colour": "blue"})
    with pytest.raises(ValueError, match="record holds"):
        from_record({**record, "serial": 7})
    assert replace(from_record(record), serial="x").serial == "x"
