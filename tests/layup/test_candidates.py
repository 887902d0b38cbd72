"""Which plans are offered, and which pins are refused with a cure."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cell.kind import CellKind
from panewright.cell.nameplate import Nameplate
from panewright.cell.shape import Shape
from panewright.errors import OrderError
from panewright.layup.candidates import Pins, candidates
from panewright.layup.columns import reachable_substrings
from panewright.layup.judge import judge_layup
from panewright.layup.place import lay
from panewright.layup.plan_facts import facts
from panewright.layup.room import Room, gap_mm

KIND = CellKind("cell", Shape(156.0, 156.0), Nameplate(9.0, 0.63, 8.5, 0.53, 0.0005, -0.003), "minus")


def counts(plans):
    return {(plan.columns, plan.rows, plan.substrings) for plan in plans}


@pytest.mark.parametrize(
    ("cells", "wanted"),
    [(72, (6, 12, 3)), (36, (4, 9, 2)), (60, (6, 10, 3)), (12, (2, 6, 1)), (37, (1, 37, 1))],
)
def test_the_usual_lay_ups_are_among_the_candidates(cells, wanted):
    assert wanted in counts(candidates(KIND, cells))


@settings(deadline=None)
@given(st.integers(1, 120), st.integers(1, 4))
def test_every_place_holds_a_cell_and_every_string_fills_whole_columns(in_series, strings):
    for plan in candidates(KIND, in_series, strings):
        assert plan.columns * plan.rows == in_series * strings
        assert plan.columns % strings == 0


@settings(deadline=None)
@given(st.integers(1, 120), st.integers(1, 4))
def test_each_diode_spans_whole_pairs_of_columns_where_there_is_more_than_one(in_series, strings):
    for plan in candidates(KIND, in_series, strings):
        cells = in_series // plan.substrings
        assert cells * plan.substrings == in_series
        assert plan.substrings == 1 or cells % (2 * plan.rows) == 0


def test_a_string_of_an_odd_number_of_columns_has_one_diode():
    assert all(reachable_substrings(columns) == (1,) for columns in (1, 3, 5, 7))


def test_a_column_of_one_cell_is_offered_only_where_pinned():
    assert all(plan.rows > 1 for plan in candidates(KIND, 12))
    assert counts(candidates(KIND, 12, pins=Pins(rows=1))) == {
        (12, 1, 1), (12, 1, 2), (12, 1, 3), (12, 1, 6),
    }  # fmt: skip


def test_pins_hold():
    plans = candidates(KIND, 72, pins=Pins(columns=6, substrings=3, cell_gap_mm=2.0, side_margin_mm=30.0))
    assert counts(plans) == {(6, 12, 3)}
    plan = plans[0]
    assert (plan.cell_gap_mm, plan.side_margin_mm, plan.end_margin_mm) == (2.0, 30.0, 30.0)
    assert facts(plan, KIND).pane_width_mm == 6 * 156 + 5 * plan.string_gap_mm + 60


@pytest.mark.parametrize(
    ("pins", "words"),
    [
        (Pins(columns=6, rows=12), "72 places for 71 cells"),
        (Pins(columns=7), "1 or 71 columns"),
        (Pins(rows=12), "1 or 71 rows"),
        (Pins(substrings=3), "even number of columns"),
    ],
)
def test_pins_that_leave_places_empty_are_refused_with_the_cure(pins, words):
    with pytest.raises(OrderError, match=words):
        candidates(KIND, 71, pins=pins)


def test_a_single_column_cannot_have_three_diodes():
    with pytest.raises(OrderError, match="Write 1, or change"):
        candidates(KIND, 36, pins=Pins(columns=3, substrings=3))


TENTHS = st.integers(0, 300).map(lambda tenths: tenths / 10)


@settings(deadline=None, max_examples=50)
@given(st.integers(1, 80), st.integers(1, 3), st.floats(2.0, 10.0), TENTHS, TENTHS)
def test_default_gaps_and_margins_pass_every_rule(in_series, strings, bus, rim, creepage):
    room = Room(bus, rim, creepage)
    for plan in candidates(KIND, in_series, strings, room=room):
        checks = judge_layup(lay(plan, KIND), creepage, rim)
        assert [str(check) for check in checks if not check.passed] == []


@settings(deadline=None)
@given(st.integers(1, 80), st.floats(10, 210), st.floats(10, 210))
def test_glass_is_cut_to_whole_millimetres_unless_margins_are_pinned(cells, width, length):
    kind = CellKind("odd", Shape(width, length), KIND.nameplate, "minus")
    for plan in candidates(kind, cells):
        figures = facts(plan, kind)
        assert figures.pane_width_mm == pytest.approx(round(figures.pane_width_mm), abs=1e-6)
        assert figures.pane_height_mm == pytest.approx(round(figures.pane_height_mm), abs=1e-6)


def test_the_gap_grows_with_the_tolerance():
    assert gap_mm(Shape(156.0, 156.0, tolerance_mm=0.5)) == 3.0
    assert gap_mm(Shape(156.0, 156.0, tolerance_mm=0.25)) == 2.5
    assert gap_mm(Shape(156.0, 156.0, tolerance_mm=0.0)) == 2.0
