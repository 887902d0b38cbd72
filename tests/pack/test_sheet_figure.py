"""The picture of a sheet: every panel and cut is there, to scale, and no words lie on each other."""

from __future__ import annotations

from itertools import combinations

import pytest

from panewright.cutting.sheets.sheet import Cutter, Panel, Sheet
from panewright.cutting.sheets.sheets import cut_sheets
from panewright.drawing.drawing import Dimension, Path, Text
from panewright.drawing.lettering import text_width_mm
from panewright.pack.figures.sheets import sheet_figure


@pytest.fixture(scope="module")
def figure():
    panels = [Panel("front", 1490.0, 680.0, 4, order="A-104"), Panel("front", 900.0, 540.0, 4, order="B-7")]
    plan = cut_sheets(panels, [Sheet(3210.0, 2250.0)], Cutter(0.0, 10.0, 15.0), (600.0, 300.0))
    return plan.sheets[0], sheet_figure(plan.sheets[0], 1, "metric")


def test_every_panel_and_every_cut_is_drawn(figure):
    cut, made = figure
    panes = [i for i in made.drawing.items if isinstance(i, Path) and i.layer == "pane"]
    cuts = [i for i in made.drawing.items if isinstance(i, Path) and i.layer == "cut"]
    assert (len(panes), len(cuts)) == (len(cut.panels), len(cut.steps))
    numbers = [i.words for i in made.drawing.items if isinstance(i, Text) and i.layer == "number"]
    assert numbers == [str(step.number) for step in cut.steps]


def test_dimensions_say_the_sheet_and_the_first_cut(figure):
    cut, made = figure
    told = sorted(i.length_mm for i in made.drawing.items if isinstance(i, Dimension))
    assert told == pytest.approx(sorted((3210.0, 2250.0, cut.steps[0].at_mm)))


def test_no_words_lie_on_each_other(figure):
    _, made = figure
    rooms = [_room(text) for text in made.drawing.items if isinstance(text, Text)]
    for (a, b, c, d), (e, f, g, h) in combinations(rooms, 2):
        assert c <= e or g <= a or d <= f or h <= b


def _room(text: Text) -> tuple[float, float, float, float]:
    """Left, foot, right and top of a line of words, which runs right or up. [mm]"""
    width, (x, y) = text_width_mm(text.words, text.height_mm), text.at
    back = {"left": 0.0, "centre": width / 2, "right": width}[text.align]
    if text.angle_deg == 90.0:
        return x - 0.75 * text.height_mm, y - back, x, y - back + width
    return x - back, y, x - back + width, y + 0.75 * text.height_mm
