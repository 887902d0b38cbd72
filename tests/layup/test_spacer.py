"""Combs to cut out: their teeth fit the gaps of the lay-up they were made for, and touch no ribbon."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cell.kind import CellKind
from panewright.cell.nameplate import Nameplate
from panewright.cell.shape import Shape
from panewright.drawing.drawing import Dimension
from panewright.drawing.overlap import crossed, overlaps
from panewright.layup.candidates import candidates
from panewright.layup.drawn.figure import cell_outline
from panewright.layup.drawn.spacer import (
    LONGEST_MM,
    SPINE_MM,
    cell_comb,
    column_comb,
    comb_outline,
    combs,
    spacer_drawing,
)
from panewright.layup.place import lay

PLATE = Nameplate(9.0, 0.63, 8.5, 0.53, 0.0005, -0.003)
SHAPES = st.builds(
    lambda side, part, ratio, busbars: Shape(
        side, side / part, side * ratio if ratio else None, 0.0, busbars
    ),
    st.floats(60, 210),
    st.integers(1, 3),
    st.sampled_from([None, 1.2, 1.28, 1.35]),
    st.integers(1, 5),
)


def laid(shape, cells=24):
    kind = CellKind("cell", shape, PLATE, "minus")
    plans = [plan for plan in candidates(kind, cells) if plan.columns > 1 and plan.rows > 1]
    return lay(plans[len(plans) // 2], kind)


def inside(point, outline):
    x, y = point
    met = False
    for (x0, y0), (x1, y1) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            met = not met
    return met


def _nearer(x, middles):
    middle = min(middles, key=lambda each: abs(each - x))
    return x + 1e-6 * (middle - x)


@given(SHAPES)
@settings(max_examples=40, deadline=None)
def test_the_column_comb_laid_on_the_panes_corner_lies_in_the_gaps_and_on_no_cell(shape):
    layup = laid(shape)
    comb = column_comb(layup)
    outlines = [cell_outline(cell.shape, cell.centre) for cell in layup.cells]
    for middle in comb.middles_mm:
        left = max(x for line in outlines for x, _ in line if x < middle)
        right = min(x for line in outlines for x, _ in line if x > middle)
        assert middle - left == pytest.approx(comb.gap_mm / 2)
        assert right - middle == pytest.approx(comb.gap_mm / 2)
    slimmer = [(_nearer(x, comb.middles_mm), y) for x, y in comb_outline(comb)]  # an edge may touch
    assert not any(inside(point, line) for point in slimmer for line in outlines)
    reached = max(y for _, y in comb_outline(comb)) - layup.plan.end_margin_mm
    assert reached >= 15.0  # along straight edges, past any clipped corner


@given(SHAPES)
@settings(max_examples=40, deadline=None)
def test_the_cell_comb_reaches_straight_edges_and_stops_short_of_the_first_ribbon(shape):
    layup = laid(shape)
    comb = cell_comb(layup)
    if comb is None:
        return
    ribbon = min(tab.points[0][0] for tab in layup.tabs) - layup.tab_width_mm / 2
    assert layup.plan.side_margin_mm + comb.tooth_mm <= ribbon - 2.0 + 1e-9
    column = [cell for cell in layup.cells if cell.column == 0]
    rows = sorted(cell.centre[1] for cell in column)
    assert comb.pitch_mm == pytest.approx(rows[1] - rows[0])
    assert comb.gap_mm == pytest.approx(rows[1] - rows[0] - shape.length_mm)


@given(SHAPES, st.sampled_from(["metric", "us"]))
@settings(max_examples=25, deadline=None)
def test_no_words_lie_on_words_or_under_lines(shape, system):
    drawing = spacer_drawing(laid(shape), system=system)
    assert overlaps(drawing, system) == ()
    assert crossed(drawing, system) == ()


def test_teeth_are_as_wide_as_told_and_a_comb_goes_on_a_cutters_bed():
    layup = laid(Shape(156.0, 156.0, 200.0, 0.0, 3), 60)
    assert [comb.name for comb in combs(layup)] == ["Cell comb", "Column comb"]
    for comb in combs(layup):
        assert comb.long_mm <= LONGEST_MM
        points = comb_outline(comb)
        middle = comb.middles_mm[0]
        roots = sorted(
            x
            for x, y in points
            if abs(x - middle) < 2 * comb.gap_mm and SPINE_MM < y < SPINE_MM + comb.tooth_mm
        )
        assert roots[-1] - roots[0] >= comb.gap_mm - 1e-9
    said = [item.length_mm for item in spacer_drawing(layup).items if isinstance(item, Dimension)]
    assert layup.plan.cell_gap_mm in [pytest.approx(each) for each in said]


def test_a_single_column_or_a_ribbon_at_the_corner_has_no_comb():
    kind = CellKind("cell", Shape(156.0, 156.0, 160.0, 0.0, 10), PLATE, "minus")
    row = next(plan for plan in candidates(kind, 4) if plan.rows == 1 or plan.columns == 1)
    layup = lay(row, kind)
    assert (column_comb(layup) is None) == (row.columns == 1)
    assert cell_comb(layup) is None
