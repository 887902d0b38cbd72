"""The title blocks of an order's drawings: on pages as a strip, in files for machines below the drawing."""

from __future__ import annotations

from dataclasses import replace

from panewright.drawing.bounds import bounds
from panewright.drawing.drawing import Drawing, Text
from panewright.drawing.paper_size import text_area
from panewright.drawing.sheet import Figure
from panewright.drawing.title import Title, title_block, with_title
from panewright.layup.drawn.signs import SIDE_WORDS
from panewright.pack.heading import order_words, stamp
from panewright.panel.design import Design

STRIP_MM = 25.0  #: of paper that a strip takes on a page, at most three lines in a place
_LETTERS_MM, _EDGE_MM = 2.1, 2.0
UNITS = {"metric": "millimetres", "us": "inches (mm)"}


def title_of(
    design: Design, name: str, *, material: str, tolerance: str, scale: str = "as marked", side: str = ""
) -> Title:
    """What one drawing of an order says of itself."""
    return Title(
        name=name,
        order=order_words(design),
        revision=design.revision,
        material=material,
        scale=scale,
        units=UNITS[design.order.job.units],
        side=side,
        tolerance=tolerance,
        mark=stamp(design),
    )


def strip(design: Design, title: Title) -> Figure:
    """The title block as wide as the page."""
    wide = text_area(design.order.job.paper).width_mm - _EDGE_MM
    items = title_block(title, (0.0, 0.0), wide, _LETTERS_MM)
    return Figure(Drawing(f"Title: {title.name}", items), 1.0, to_scale=False)


def marked(drawing: Drawing, mark: str, system: str) -> Drawing:
    """A workshop drawing with a warning over it, large, on a layer of its own; as it is without one."""
    if not mark:
        return drawing
    around = bounds(drawing, system)
    height = max(30.0, 0.03 * around.width_mm)
    words = Text((around.left, around.top + 0.8 * height), mark, height, "warn", bold=True)
    return drawing.with_items((words,))


def for_machines(design: Design, drawing: Drawing, title: Title) -> Drawing:
    """A drawing for a file at full size: its title block below, and what is not proven says so above."""
    units = design.order.job.units
    said = SIDE_WORDS[drawing.side] or title.side
    alone = "millimetres" if units == "metric" else "inches"
    titled = with_title(drawing, replace(title, scale="1 : 1", units=alone, side=said), units)
    return marked(titled, stamp(design), units)
