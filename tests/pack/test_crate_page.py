"""The crate in the book and on the screen: drawings to scale, every piece, every rule, words clear."""

from __future__ import annotations

import json
import re
from dataclasses import replace

import pytest

from panewright.crate.ask import ask_of
from panewright.crate.crated import crated
from panewright.crate.fragility import fragility
from panewright.crate.pads import pad
from panewright.crate.screws import BEARER, FLOOR, LID, SILL, WALL
from panewright.crate.stack import Panel
from panewright.drawing.bounds import bounds
from panewright.drawing.drawing import Dimension
from panewright.drawing.overlap import crossed, overlaps
from panewright.drawing.sheet import Caution, Figure, Steps, Table, Verdicts, Words
from panewright.pack.bench import Bench
from panewright.pack.crate_told import crate_told, joint_words
from panewright.pack.figures.crate import crate_section
from panewright.pack.pages import caution
from panewright.pack.pages.crate import crate_pages
from panewright.pack.pages.crate_wood import LARGER
from panewright.paper.record import plain

WISHES = [
    {"panels": 1},
    {"panels": 5},
    {"panels": 60},
    {"panels": 1000},
    {"panels": 4, "way": "pallet"},
    {"panels": 3, "way": "by hand"},
    {"panels": 3, "lay": "flat"},
    {"panels": 40, "lay": "flat", "way": "pallet"},
]


def travels(made, wish):
    asked = ask_of(made.design)
    pinned = {key: value for key, value in wish.items() if key != "panels"}
    return crated(replace(asked, panels=wish["panels"], wish=replace(asked.wish, **pinned)))


def in_small_sheets(made, lay, panels):
    """The same in plywood of 1200 x 600 mm, of panels larger than that both ways."""
    asked = ask_of(made.design)
    large = replace(asked.panel, long_mm=1573.0, short_mm=1383.0)
    wood = tuple(
        replace(each, long_mm=1200.0, short_mm=600.0) if each.use == "plywood" else each
        for each in asked.wish.wood
    )
    wish = replace(asked.wish, wood=wood, lay=lay, way="pallet", by=None)
    return crated(replace(asked, panel=large, panels=panels, wish=wish))


def blocks(made, found, kind):
    pages = crate_pages(Bench(made.design, made.quote), found)
    return [block for page in pages for block in page.blocks if isinstance(block, kind)]


@pytest.mark.parametrize("wish", WISHES, ids=str)
def test_no_words_lie_on_words_or_lines_in_any_crate(made, wish):
    system = made.design.order.job.units
    for figure in blocks(made, travels(made, wish), Figure):
        assert overlaps(figure.drawing, system) == (), figure.drawing.name
        assert crossed(figure.drawing, system) == (), figure.drawing.name


@pytest.mark.parametrize("wish", WISHES, ids=str)
def test_every_cut_of_a_sheet_that_is_drawn_is_told_in_its_order(made, wish):
    """A picture of narrow cuts has no room for each number; what to do stands under it in any case."""
    found = travels(made, wish)
    told = [table for table in blocks(made, found, Table) if table.columns[0].endswith("cut")]
    drawn = [each for each in blocks(made, found, Figure) if each.drawing.name == "Sheet"]
    assert len(told) == len(drawn)
    for number, (table, figure) in enumerate(zip(told, drawn, strict=True), 1):
        assert table.columns[0] == f"Sheet {number}, cut"
        assert figure.caption.startswith(f"Sheet {number}, ")
        assert [row[0] for row in table.rows] == [f"{n + 1}" for n in range(len(table.rows))]
    assert drawn or not any(each.sheets for each in found.bought)


@pytest.mark.parametrize("wish", WISHES, ids=str)
def test_the_drawing_is_the_crate(made, wish):
    found = travels(made, wish)
    for cut in ("across", "along"):
        drawing = crate_section(found.crate, cut, 0.01)
        told = {item.note: [] for item in drawing.items if isinstance(item, Dimension)}
        for item in drawing.items:
            if isinstance(item, Dimension):
                told[item.note].append(item.length_mm)
        inside, outside = found.inside, found.outside
        wide = (
            (inside.across_mm, outside.across_mm) if cut == "across" else (inside.along_mm, outside.along_mm)
        )
        assert told["inside"] == [pytest.approx(wide[0], abs=0.01)]
        assert told["outside"] == [pytest.approx(wide[1], abs=0.01), pytest.approx(outside.up_mm, abs=0.01)]
        around = bounds(drawing, "metric")
        assert around.width_mm >= wide[1]
        assert around.height_mm >= outside.up_mm


@pytest.mark.parametrize(("lay", "panels"), [("on edge", 9), ("flat", 4)])
def test_joints_both_ways_are_drawn_told_and_clear_of_words(made, lay, panels):
    found = in_small_sheets(made, lay, panels)
    crate, system = found.crate, made.design.order.job.units
    for figure in blocks(made, found, Figure):
        assert overlaps(figure.drawing, system) == (), figure.drawing.name
        assert crossed(figure.drawing, system) == (), figure.drawing.name
    across = crate_section(crate, "across", 0.01, system)
    cut = [item.points for item in across.items if getattr(item, "layer", "") == "cut"]
    level = {round(low[1] - crate.foot_mm - crate.ply_mm, 6) for low, high in cut if low[1] == high[1]}
    along = {round(low[0] + crate.box.across_mm / 2, 6) for low, high in cut if low[0] == high[0]}
    assert level == {round(each, 6) for each in crate.seams.side.across_mm}
    assert along == {round(each, 6) for each in crate.seams.lid.across_mm}
    assert level or along
    told = " ".join(block.words for block in blocks(made, found, Words))
    assert ("Sides are higher than a sheet" in told) == bool(level)
    assert ("Floor and lid are wider than a sheet" in told) == bool(along)
    named = {row[0] for table in blocks(made, found, Table) for row in table.rows}
    assert {board.name for board in found.boards} <= named
    assert "to be asked" not in told


def test_a_board_that_no_joint_serves_is_to_be_asked_for_and_says_why(made):
    asked = ask_of(made.design)
    tiny = tuple(
        replace(each, long_mm=400.0, short_mm=200.0) if each.use == "plywood" else each
        for each in asked.wish.wood
    )
    found = crated(replace(asked, wish=replace(asked.wish, wood=tiny)))
    assert any(LARGER in row for table in blocks(made, found, Table) for row in table.rows)


def test_panels_of_the_drawing_are_counted(made):
    found = travels(made, {"panels": 7, "way": "pallet"})
    across = crate_section(found.crate, "across", 1.0)
    panes = [item for item in across.items if getattr(item, "layer", "") == "pane"]
    assert len(panes) == found.loads[0][0]


def test_every_piece_and_every_rule_stands_on_the_pages(made):
    found = travels(made, {"panels": 5})
    named = {row[0] for table in blocks(made, found, Table) for row in table.rows}
    assert {board.name for board in found.boards} <= named
    rows = [row for table in blocks(made, found, Table) for row in table.rows]
    for joint in found.joints:
        assert (joint.screw.name, f"{joint.count} ×", joint_words(joint)) in rows
    drawn = [
        item.words
        for item in crate_section(found.crate, "across", 1.0).items
        if getattr(item, "words", "").startswith("screw ")
    ]
    shown = {BEARER, FLOOR, WALL, SILL, LID}
    assert len(drawn) == sum(joint.name in shown and not joint.skewed for joint in found.joints)
    assert {words.removeprefix("screw ") for words in drawn} <= {j.screw.name for j in found.joints}
    shown = blocks(made, found, Verdicts)[0].checks
    assert {
        check.rule for check in found.checks if "foam" not in check.rule and "shock" not in check.rule
    } - {check.rule for check in shown} <= {
        f"pads of {side} too broad to buckle" for side in ("its face", "its long side", "its short side")
    }
    assert [check for check in found.checks if not check.passed and check not in shown] == []
    (words,) = (block.words for block in blocks(made, found, Caution))
    heavy = [caution.CRATE.format(heavy) for heavy in ("25\u2009kg", "55\u2009lb")]
    assert words in [f"{caution.CRATED_GLASS} {each}" for each in heavy]
    (steps,) = blocks(made, found, Steps)
    assert len(steps.steps) == 6


def test_the_screen_tells_the_reason_first_and_every_failure_with_its_cure(made):
    asked = ask_of(made.design)
    hopeless = crated(
        replace(asked, wish=replace(asked.wish, drop_mm=2000.0, fragility="very delicate", carriers=()))
    )
    words = crate_told(made.design, hopeless)
    assert words.startswith("No carrier of the shelf takes")
    for check in hopeless.checks:
        assert (check.rule in words) >= (not check.passed)
        assert check.passed or check.cure in words


def test_the_record_says_how_the_order_travels(made):
    leaf = made.pack.leaf("design.json")
    told = json.loads(json.dumps(plain(leaf.record)))["crate"]
    assert sum(held * count for held, count in told["loads"]) == made.design.order.job.panels
    assert told["gross_kg"] > told["tare_kg"] > 0
    assert {each["side"] for each in told["padding"]} == {"face", "edge", "end"}
    assert told["outside"]["along_mm"] > told["inside"]["along_mm"]


def test_one_pad_alone_is_drawn_and_told_in_the_middle(made):
    design = made.design
    panel = Panel(605.0, 335.0, 30.0, 21.0, 4.34)
    alone = replace(ask_of(design), panel=panel, panels=1, fragility=fragility("delicate", None, 0.0))
    found = crated(replace(alone, wish=replace(alone.wish, way="by hand", by=None, lay="on edge")))
    end = found.crate.cushion("end")
    assert end.pads == 1
    (steps,) = blocks(made, found, Steps)
    assert any("in the middle" in step.do and "at the ends" in step.do for step in steps.steps)
    drawn = crate_section(found.crate, "along", 0.01, design.order.job.units)
    foam = [item.points for item in drawn.items if getattr(item, "layer", "") == "encapsulant"]
    tall = pad(found.crate.stack, end).along_mm
    beside = [
        points
        for points in foam
        if max(y for _, y in points) - min(y for _, y in points) == pytest.approx(tall)
    ]
    assert len(beside) == 2
    middles = {round(sum(y for _, y in points[:4]) / 4, 3) for points in beside}
    assert len(middles) == 1


def test_a_boards_millimetres_read_alike_in_table_cuts_and_drawing(made):
    """35 7/8 in are 911.225 mm: they were 911.22 in the table, 911.23 on the sheet and 911.2 in its cuts."""
    beside = r"\(([\d.]+)\u2009mm\)" if made.design.order.job.units == "us" else r"([\d.]+)\u2009mm"
    shown, found = Bench(made.design, made.quote), travels(made, {"panels": 3, "way": "pallet"})
    pages = [block for page in crate_pages(shown, found) for block in page.blocks]
    words = [cell for block in pages if isinstance(block, Table) for row in block.rows for cell in row]
    sizes = [float(each) for cell in words for each in re.findall(beside, cell)]
    drawn = [
        item.length_mm
        for block in pages
        if isinstance(block, Figure) and block.drawing.name == "Sheet"
        for item in block.drawing.items
        if isinstance(item, Dimension)
    ]
    assert len(sizes) > 20
    assert len(drawn) > 2
    assert [each for each in sizes if abs(each - round(each, 1)) > 1e-9] == []
    inner = drawn[2::3]
    assert all(each == pytest.approx(round(each, 1), abs=1e-6) for each in inner)
