"""A detail stands on the same page, clear of the figure."""

from functools import partial

import pytest

from panewright.drawing.bounds import bounds
from panewright.drawing.drawing import Dimension, Drawing, Text, box
from panewright.drawing.overlap import crossed, overlaps
from panewright.drawing.paper_size import Size
from panewright.pack.figures.beside import Detail, with_detail

DETAIL = Detail(
    Drawing("corner", (box(0, 0, 10, 10, "cell"), Dimension((0, 0), (10, 0), -2, 1.0))),
    1 / 3,
    "Corner, 3 : 1",
)


def pane(sides, text_mm):
    return Drawing("pane", (box(0, 0, *sides, "pane"), Text((0, -text_mm), "pane", text_mm)))


@pytest.mark.parametrize("sides", [(600.0, 1400.0), (1400.0, 600.0), (900.0, 900.0)])
def test_the_page_holds_both_and_they_keep_clear_of_each_other(sides):
    room = Size(170.0, 215.0)
    made = with_detail(partial(pane, sides), room, "", "metric", DETAIL)
    around = bounds(made.drawing)
    assert around.width_mm / made.scale <= room.width_mm
    assert around.height_mm / made.scale <= room.height_mm
    said = {item.words for item in made.drawing.items if isinstance(item, Text)}
    assert said == {"Corner, 3 : 1", "10\u2009mm", "pane"}
    assert overlaps(made.drawing) == ()
    assert crossed(made.drawing) == ()


def test_a_detail_keeps_its_own_scale_on_paper():
    made = with_detail(partial(pane, (600.0, 1400.0)), Size(170.0, 215.0), "", "metric", DETAIL)
    cell = next(item for item in made.drawing.items if getattr(item, "layer", "") == "cell")
    wide = max(x for x, _ in cell.points) - min(x for x, _ in cell.points)
    assert wide / made.scale == pytest.approx(30.0)
