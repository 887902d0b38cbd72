"""Laws of the drawings: clean words, one geometry from both sides, true figures, and the side said."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cell.kind import CellKind
from panewright.cell.nameplate import Nameplate
from panewright.cell.shape import Shape
from panewright.drawing.drawing import Dimension, Path, Text
from panewright.drawing.move import mirrored
from panewright.drawing.overlap import crossed, overlaps
from panewright.layup.buses import crossings
from panewright.layup.candidates import candidates
from panewright.layup.drawn.bus_sheet import bus_sheet
from panewright.layup.drawn.end_view import end_view
from panewright.layup.drawn.figure import View, bench_view, front_view
from panewright.layup.drawn.ribbon_sheet import ribbon_sheet
from panewright.layup.drawn.rim import Rim
from panewright.layup.drawn.template import template
from panewright.layup.drawn.wiring import wiring_diagram
from panewright.layup.place import lay

NAMEPLATE = Nameplate(9.0, 0.63, 8.5, 0.53, 0.0005, -0.003)


@st.composite
def layups(draw):
    """Cells as they are sold, laid in every way the tool offers."""
    side = draw(st.sampled_from((125.0, 156.0, 158.75, 166.0, 182.0, 210.0)))
    shape = Shape(
        side, side, circle_mm=draw(st.sampled_from((None, 1.41 * side))), busbars=draw(st.integers(2, 12))
    )
    front = draw(st.sampled_from(("minus", "plus", "behind")))
    kind = CellKind("sold", shape, NAMEPLATE, front, draw(st.sampled_from((1, 2, 3))))
    plans = candidates(kind, draw(st.sampled_from((1, 2, 10, 12, 15, 20, 36))), draw(st.integers(1, 3)))
    return lay(draw(st.sampled_from(plans)), kind, 1.0)


def size(layup):
    """Words as tall as the pack would set them: 2.5 mm on a page that takes the whole pane."""
    return max(layup.pane_height_mm / 240, layup.pane_width_mm / 140) * 2.5


@settings(max_examples=25, deadline=None)
@given(layups())
def test_no_words_lie_on_other_words(layup):
    text = size(layup)
    for drawing in (
        front_view(layup, text),
        bench_view(layup, text),
        end_view(layup, "bottom", min(text, 10.0)),
        end_view(layup, "top", min(text, 10.0)),
        wiring_diagram(layup, 4.0),
        ribbon_sheet(layup, 8.0),
        bus_sheet(layup, 8.0, "us"),
        template(layup, 6.0),
    ):
        assert overlaps(drawing) == (), drawing.name
        assert overlaps(drawing, "us") == (), drawing.name


@settings(max_examples=25, deadline=None)
@given(layups(), st.sampled_from(("metric", "us")), st.sampled_from((None, Rim(9.0, 3.0, 30.0))))
def test_no_line_runs_through_words(layup, system, rim):
    text, view = size(layup), View(rim=rim, system=system)
    for drawing in (
        front_view(layup, text, view),
        bench_view(layup, text, view),
        wiring_diagram(layup, 4.0),
        ribbon_sheet(layup, 8.0),
        bus_sheet(layup, 8.0, system),
    ):
        assert crossed(drawing, system) == (), drawing.name


@settings(max_examples=25, deadline=None)
@given(layups())
def test_mirrored_twice_is_the_same(layup):
    middle = layup.pane_width_mm / 2
    for drawing in (front_view(layup), bench_view(layup), template(layup)):
        again = mirrored(mirrored(drawing, middle), middle)
        assert again.side == drawing.side
        for one, other in zip(drawing.items, again.items, strict=True):
            if isinstance(one, Path):
                assert sorted(map(rounded, one.points)) == sorted(map(rounded, other.points))
            if isinstance(one, Text):
                assert (one.words, rounded(one.at), one.align) == (
                    other.words,
                    rounded(other.at),
                    other.align,
                )


def rounded(point):
    return round(point[0], 6), round(point[1], 6)


@settings(max_examples=25, deadline=None)
@given(layups())
def test_cell_one_appears_on_the_other_side_of_the_bench_view(layup):
    front, bench = (numbers(view(layup)) for view in (front_view, bench_view))
    assert set(front) == set(bench) == {str(cell.number) for cell in layup.cells}
    for number, (x, y) in front.items():
        assert bench[number] == pytest.approx((layup.pane_width_mm - x, y))


def numbers(drawing):
    return {
        item.words: item.at for item in drawing.items if isinstance(item, Text) and item.layer == "number"
    }


def test_every_view_says_which_side_it_shows(whole):
    layup = lay(candidates(whole, 12)[0], whole)
    for view, words in (
        (front_view(layup), "Seen from the front, sunny side up"),
        (bench_view(layup), "Seen from the bench, sunny side down"),
        (template(layup), "Seen from the bench, sunny side down"),
        (end_view(layup, "top"), "Seen from the bench, sunny side down"),
    ):
        assert words in {item.words for item in view.items if isinstance(item, Text)}
        assert view.side == ("sunny side up" if "front" in words else "sunny side down")


def test_the_pane_and_every_gap_are_dimensioned_with_their_true_length(whole):
    layup = lay(next(plan for plan in candidates(whole, 36) if plan.columns == 4), whole)
    lengths = {round(item.length_mm, 6) for item in front_view(layup).items if isinstance(item, Dimension)}
    plan = layup.plan
    assert lengths == {
        layup.pane_width_mm, layup.pane_height_mm, plan.side_margin_mm, plan.end_margin_mm, 3.0, 159.0,
    }  # fmt: skip


@settings(max_examples=25, deadline=None)
@given(layups())
def test_the_template_holds_a_band_for_every_cell(layup):
    bands = [item for item in template(layup).items if isinstance(item, Path) and item.layer == "limit"]
    assert len(bands) == 2 * len(layup.cells)


def test_ribbons_seen_from_one_side_are_hidden_from_the_other(whole):
    """In a 2 x 2 lay-up each cell shows one ribbon a busbar on each side, and buses take the rest."""
    layup = lay(next(plan for plan in candidates(whole, 4) if plan.columns == 2), whole)
    long_ones = [
        len(
            [
                item
                for item in view(layup).items
                if isinstance(item, Path) and item.layer == "ribbon" and tall(item)
            ]
        )
        for view in (front_view, bench_view)
    ]
    assert long_ones == [12, 12]


def tall(path):
    ys = [y for _, y in path.points]
    return max(ys) - min(ys) > 100


def test_films_are_marked_and_named_where_three_strings_cross(whole):
    layup = lay(next(plan for plan in candidates(whole, 8, 3) if plan.columns == 6), whole)
    view = end_view(layup, "bottom")
    marked = [item for item in view.items if isinstance(item, Path) and item.layer == "mark"]
    assert len(marked) == len(crossings(layup.buses)) > 0
    assert any("a film between ribbon and bus" in item.words for item in view.items if isinstance(item, Text))


def test_poles_alternate_at_the_column_ends(whole):
    layup = lay(next(plan for plan in candidates(whole, 36) if plan.columns == 4), whole)
    signs = [
        item for item in front_view(layup).items if isinstance(item, Text) and item.layer in ("plus", "minus")
    ]
    marks = [sign for sign in signs if len(sign.words) == 1]
    assert [mark.words for mark in marks] == ["−", "+"] * 4


def test_the_ribbon_sheet_states_the_length_to_cut_of_every_kind(whole):
    layup = lay(next(plan for plan in candidates(whole, 36) if plan.columns == 4), whole)
    sheet = ribbon_sheet(layup, panels=4)
    cut = {item.length_mm for item in sheet.items if isinstance(item, Dimension) and item.note == "cut"}
    assert {312.0, 163.5, 171.5} <= cut
    assert "384 ×" in {item.words for item in sheet.items if isinstance(item, Text)}


def test_the_wiring_diagram_names_every_substring(whole):
    layup = lay(next(plan for plan in candidates(whole, 36) if plan.substrings == 2), whole)
    words = {item.words for item in wiring_diagram(layup).items if isinstance(item, Text)}
    assert {"cells 1 to 18", "cells 19 to 36", "D1", "D2", "+", "−"} <= words
