"""A wide end in two halves: nothing lost, nothing twice, every lead in one of them."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.drawing.bounds import bounds
from panewright.drawing.drawing import Drawing, Path, Text, box
from panewright.layup.candidates import candidates
from panewright.layup.drawn.end_view import end_view
from panewright.layup.drawn.halves import between, beyond, cut_x
from panewright.layup.place import lay


@pytest.fixture(scope="module")
def wide(whole):
    return lay(next(plan for plan in candidates(whole, 72) if plan.columns == 12), whole)


def said(drawing, *layers):
    return sorted(item.words for item in drawing.items if isinstance(item, Text) and item.layer in layers)


@pytest.mark.parametrize("end", ["bottom", "top"])
def test_both_halves_show_every_cell_and_every_lead_once(wide, end):
    halves = [end_view(wide, end, 10.0, half) for half in ("left", "right")]
    for layers in (("number",), ("plus", "minus")):
        both = sorted(word for half in halves for word in said(half, *layers))
        assert both == said(end_view(wide, end, 10.0), *layers)


@pytest.mark.parametrize("end", ["bottom", "top"])
def test_the_halves_meet_at_a_gap_between_columns(wide, end):
    cut = cut_x(wide, end)
    for cell in wide.cells:
        assert abs(cell.centre[0] - cut) >= cell.shape.width_mm / 2
    left, right = (panes(end_view(wide, end, 10.0, half)) for half in ("left", "right"))
    assert left.width_mm + right.width_mm == pytest.approx(wide.pane_width_mm)
    assert left.right == pytest.approx(right.left)


def panes(drawing):
    return bounds(Drawing("", tuple(i for i in drawing.items if getattr(i, "layer", "") == "pane")))


@given(st.floats(-5, 15), st.floats(0, 15))
@settings(max_examples=30)
def test_a_shape_keeps_the_area_that_lies_between_the_lines(left, wide):
    parts = list(between([box(0, 0, 10, 4, "bus", True)], left, left + wide))
    expected = 4 * max(0.0, min(10, left + wide) - max(0, left))
    assert sum(area(part.points) for part in parts) == pytest.approx(expected, abs=1e-9)


def area(points):
    pairs = zip(points, (*points[1:], points[0]), strict=True)
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)) / 2


def test_an_open_line_is_cut_and_an_outline_too():
    (line,) = between([Path(((0, 0), (10, 10)), "bus")], 2, 4)
    assert line.points == ((2, 2), (4, 4))
    assert beyond(((0, 0), (4, 0), (4, 4), (0, 4)), 1.0, below=True) == ((0, 0), (4, 0), (4, 1), (0, 1))
