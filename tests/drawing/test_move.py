"""Mirroring turns geometry, keeps words readable and says the other side."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.drawing.bounds import bounds, item_bounds
from panewright.drawing.dimension import dimension_words
from panewright.drawing.drawing import Arc, Dimension, Drawing, Path, Text, box
from panewright.drawing.move import enlarged, merged, mirrored, moved

PANE = Drawing(
    "pane",
    (
        box(0, 0, 700, 1500, "pane"),
        box(20, 30, 176.75, 186.75, "cell"),
        Arc((60, 900), 40, "hole", 10, 80),
        Arc((600, 900), 5, "hole"),
        Text((25, 40), "cell 1", 12, "number"),
        Text((690, 700), "long side", 12, "text", "centre", 90),
        Text((300, 300), "slanting", 12, "text", "left", 30),
        Dimension((0, 0), (700, 0), -30, 12),
        Dimension((20, 30), (20, 186.75), 15, 12, "y", "typ."),
    ),
    "sunny side up",
)
points = st.tuples(st.floats(-1e3, 1e3), st.floats(-1e3, 1e3))


@given(st.lists(points, min_size=2, max_size=9), st.floats(-500, 500))
def test_mirrored_twice_is_where_it_was(corners, axis):
    drawing = Drawing("p", (Path(tuple(corners), "cell", True), Arc(corners[0], 3, "hole", 10, 75)))
    back = mirrored(mirrored(drawing, axis), axis)
    for before, after in zip(corners, back.items[0].points, strict=True):
        assert after == pytest.approx(before, abs=1e-9)
    assert (back.items[1].start_deg, back.items[1].end_deg) == pytest.approx((10, 75))


def test_a_mirrored_point_lies_as_far_on_the_other_side():
    cell = mirrored(PANE, 350).items[1]
    assert {x for x, _ in cell.points} == {680, 523.25}
    assert {y for _, y in cell.points} == {30, 186.75}


def test_a_mirrored_outline_still_runs_counter_clockwise():
    def area(path):
        ahead = (*path.points[1:], path.points[0])
        return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(path.points, ahead, strict=True)) / 2

    assert area(PANE.items[1]) > 0
    assert area(mirrored(PANE, 350).items[1]) == pytest.approx(area(PANE.items[1]))


def test_the_side_is_the_other_one():
    assert mirrored(PANE, 350).side == "sunny side down"
    assert mirrored(mirrored(PANE, 350), 350).side == "sunny side up"
    assert mirrored(replace(PANE, side=""), 350).side == ""


def test_words_are_not_turned_round_and_lie_on_the_mirrored_place():
    for item in PANE.items:
        if isinstance(item, Text):
            drawing = Drawing("one", (item,))
            turned = mirrored(drawing, 350)
            assert turned.items[0].words == item.words
            assert -90 < turned.items[0].angle_deg <= 90
            before, after = bounds(drawing), bounds(turned)
            assert after.left == pytest.approx(700 - before.right, abs=0.16 * 12)  # what hangs below the foot
            assert after.bottom == pytest.approx(before.bottom, abs=1e-9)


def test_dimensions_keep_figure_note_and_side_of_the_part():
    for before, after in zip(PANE.items, mirrored(PANE, 350).items, strict=True):
        if isinstance(before, Dimension):
            assert dimension_words(after) == dimension_words(before)
            one, other = item_bounds(before), item_bounds(after)
            assert (other.bottom, other.top) == pytest.approx((one.bottom, one.top))


def test_an_arc_is_turned_with_its_centre():
    arc = mirrored(PANE, 350).items[2]
    assert arc.centre == (640, 900)
    assert (arc.start_deg, arc.end_deg) == (100, 170)


@given(st.floats(-1e3, 1e3), st.floats(-1e3, 1e3))
def test_moving_shifts_the_bounds_and_changes_no_length(right, up):
    before, after = bounds(PANE), bounds(moved(PANE, right, up))
    assert after.left == pytest.approx(before.left + right, abs=1e-6)
    assert after.top == pytest.approx(before.top + up, abs=1e-6)
    assert math.isclose(after.width_mm, before.width_mm, abs_tol=1e-6)


def test_merged_drawings_keep_order_and_a_side_they_agree_on():
    other = Drawing("frame", (box(0, 0, 1, 1, "rail"),), "sunny side up")
    both = merged("both", (PANE, other))
    assert both.items == PANE.items + other.items
    assert both.side == "sunny side up"
    assert merged("mixed", (PANE, mirrored(other, 0))).side == ""


def test_an_enlarged_drawing_keeps_its_figures():
    one = Drawing("d", (Dimension((0, 0), (10, 0), 3, 1.0), Arc((1, 2), 3, "hole"), box(0, 0, 4, 2, "cell")))
    large = enlarged(one, 5.0)
    assert [item.words for item in large.items if isinstance(item, Text)] == ["10\u2009mm"]
    assert Arc((5, 10), 15, "hole") in large.items
    assert box(0, 0, 20, 10, "cell") in large.items
