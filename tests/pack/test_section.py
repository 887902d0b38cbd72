"""The edge of the panel cut through."""

from dataclasses import replace
from itertools import combinations

import pytest

from panewright.drawing.drawing import Dimension, Path
from panewright.drawing.overlap import overlaps
from panewright.drawing.paper_size import Size
from panewright.frame.rail import Rail
from panewright.frame.shape.profile import outlines
from panewright.pack.figures.scale import figure
from panewright.pack.figures.section import edge, edge_section
from panewright.shelf.load import load_shelf

BULB = Rail(
    "drawn with a bulb",
    "drawn",
    30.0,
    45.0,
    3.0,
    "6060-T66",
    6000.0,
    ((0, 0), (30, 0), (30, 3), (5, 3), (3, 5), (3, 33), (12, 33), (12, 45), (0, 45)),
    (((2, 35), (10, 35), (10, 43), (2, 43)),),
)
RAILS = [*(row.part for row in load_shelf().rails), BULB]


def layers(drawing):
    return {item.layer for item in drawing.items if isinstance(item, Path)}


def with_rail(design, rail):
    return replace(design, structural=replace(design.structural, rail=rail))


@pytest.mark.parametrize("rail", RAILS, ids=lambda rail: rail.name)
def test_no_words_lie_on_each_other_with_any_rail(made, rail):
    design = with_rail(made.design, rail)
    system = design.order.job.units
    drawn = figure(lambda text: edge_section(design, text), Size(168.0, 80.0), "", system)
    assert overlaps(drawn.drawing, system) == ()


@pytest.mark.parametrize("rail", RAILS, ids=lambda rail: rail.name)
def test_the_glue_line_lies_between_metal_and_pane_and_the_gap_beside(made, rail):
    at, bead = edge(with_rail(made.design, rail)), made.design.structural.bead
    metal = rail.upright_mm if rail.profile == "tube" else rail.wall_mm
    assert at.pane_foot - metal == pytest.approx(bead.glue_line_mm)
    assert at.pane_left - rail.wall_mm == pytest.approx(bead.gap_mm)
    assert at.bead_right - at.pane_left == pytest.approx(bead.bite_mm)
    assert at.face - at.pane_foot == pytest.approx(made.design.structural.pane.sheet.nominal_mm)
    assert at.pour_foot <= at.cell_top - at.cell_mm < at.cell_top <= at.pane_foot


@pytest.mark.parametrize("rail", RAILS, ids=lambda rail: rail.name)
def test_the_metal_is_drawn_along_its_outline_with_its_holes_open(made, rail):
    drawn = [item for item in edge_section(with_rail(made.design, rail)).items if isinstance(item, Path)]
    metal = tuple(item.points for item in drawn if item.layer == "rail" and item.filled)
    holes = tuple(item.points for item in drawn if item.layer == "hole" and item.filled)
    assert metal + holes == outlines(rail)


def test_what_is_dimensioned_is_what_is_drawn(made):
    built, drawing = made.design.structural, edge_section(made.design, 2.7)
    said = {item.note: item.length_mm for item in drawing.items if isinstance(item, Dimension)}
    assert said["bite"] == pytest.approx(built.bead.bite_mm)
    assert said["gap"] == pytest.approx(built.bead.gap_mm)
    assert said["seat"] == pytest.approx(built.rail.seat_mm)


def test_a_panel_with_an_air_gap_shows_no_encapsulant(made):
    parts = replace(made.design.order.parts, encapsulation="air gap")
    design = replace(made.design, order=replace(made.design.order, parts=parts), pour=None)
    assert "encapsulant" not in layers(edge_section(design, 2.7))
    assert "encapsulant" in layers(edge_section(made.design, 2.7))


@pytest.mark.parametrize("rail", RAILS, ids=lambda rail: rail.name)
def test_no_line_to_a_name_crosses_another_and_the_beads_runs_over_the_cells(made, rail):
    """The line of the bead ran through cells and pour; reckoned here with slopes, not with sides."""
    design = with_rail(made.design, rail)
    at, drawn = edge(design), edge_section(design, 1.6)
    lines = [
        item.points
        for item in drawn.items
        if isinstance(item, Path) and item.layer == "dimension" and len(item.points) == 2
    ]
    lines = sorted((line for line in lines if line[1][0] > at.right), key=lambda line: line[1][1])

    def height(line, x):
        (x0, y0), (x1, y1) = line
        return y0 + (y1 - y0) * (x - x0) / (x1 - x0)

    for low, high in combinations(lines, 2):
        begin = max(low[0][0], high[0][0])
        assert height(low, begin) < height(high, begin)
    assert height(lines[-1], at.silicon_left) >= at.pane_foot - 1e-9
    assert len(lines) == 6


@pytest.mark.parametrize("beyond_mm", [0.0, 1.0, 5.0])
def test_a_bead_as_wide_as_the_margin_is_named_left_of_the_cells(made, beyond_mm):
    at, built = edge(made.design), made.design.structural
    wide = at.silicon_left - at.pane_left + beyond_mm
    design = replace(made.design, structural=replace(built, bead=replace(built.bead, bite_mm=wide)))
    lines = [item.points for item in edge_section(design, 1.6).items if isinstance(item, Path)]
    named = [line for line in lines if len(line) == 2 and line[1][0] > at.right]
    assert min(line[0][0] for line in named) < at.silicon_left
