"""The file for the workshop's machines: both sides, the frame round them, every cell with its limits."""

from dataclasses import replace

import numpy as np
import pytest

from panewright.drawing.drawing import Path, Text
from panewright.drawing.overlap import crossed, overlaps
from panewright.layup.candidates import candidates
from panewright.layup.drawn.corner import corner_detail
from panewright.layup.drawn.rim import Rim
from panewright.layup.drawn.workshop import workshop_drawing
from panewright.layup.place import lay
from panewright.layup.tolerance import largest

RIM = Rim(margin_mm=9.0, seen_mm=3.0, seat_mm=30.0)


@pytest.fixture(scope="module")
def layup(whole):
    return lay(candidates(whole, 36)[0], whole)


@pytest.fixture(scope="module")
def drawing(layup):
    return workshop_drawing(layup, 10.0, RIM)


def of(drawing, layer):
    return [item for item in drawing.items if isinstance(item, Path) and item.layer == layer]


def middle(path):
    xs, ys = [x for x, _ in path.points], [y for _, y in path.points]
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def test_every_cell_lies_where_it_is_laid_and_mirrored_beside(layup, drawing):
    found = sorted(middle(path) for path in of(drawing, "cell"))
    front, bench = np.array(found[: len(layup.cells)]), np.array(found[len(layup.cells) :])
    assert front == pytest.approx(np.array(sorted(cell.centre for cell in layup.cells)), abs=0.01)
    left = min(x for pane in of(drawing, "pane") for x, _ in pane.points if x > layup.pane_width_mm)
    turned = sorted((left + layup.pane_width_mm - x, y) for x, y in (c.centre for c in layup.cells))
    assert bench == pytest.approx(np.array(turned), abs=0.01)


def test_each_view_is_titled_with_its_side(drawing):
    words = {item.words for item in drawing.items if isinstance(item, Text)}
    assert {"FRONT: sunny side up", "BENCH: sunny side down, the mirror image"} <= words
    assert drawing.side == ""


def test_the_frame_stands_round_both_panes_and_its_hidden_edges_are_dashed(drawing):
    xs = [x for path in of(drawing, "rail") for x, _ in path.points]
    assert min(xs) == pytest.approx(-RIM.margin_mm)
    assert len(of(drawing, "rail")) == 8
    assert len(of(drawing, "hidden")) == 2


def test_every_place_shows_the_largest_and_the_smallest_cell(layup, drawing):
    assert len(of(drawing, "limit")) == 2 * len(layup.cells)


def test_words_lie_on_nothing(drawing):
    assert overlaps(drawing) == ()
    assert crossed(drawing) == ()


@pytest.mark.parametrize("system", ["metric", "us"])
def test_a_corner_tells_the_sides_of_largest_nominal_and_smallest_cell(layup, system):
    drawing = corner_detail(layup, 0.9, system)
    said = {item.words.split()[0]: item.words for item in drawing.items if isinstance(item, Text)}
    assert set(said) == {"largest", "nominal", "smallest"}
    assert f"{largest(layup.cells[0].shape).width_mm:g}\u2009mm" in said["largest"]
    assert overlaps(drawing, system) == ()
    assert crossed(drawing, system) == ()


def test_cells_of_one_size_have_no_band_to_draw(layup):
    exact = tuple(replace(cell, shape=replace(cell.shape, tolerance_mm=0.0)) for cell in layup.cells)
    assert corner_detail(replace(layup, cells=exact), 0.9) is None
