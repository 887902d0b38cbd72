"""What is poured, laminated or closed behind the cells, cut through; and the panel in the sun."""

from __future__ import annotations

from collections.abc import Iterator

from panewright.drawing.drawing import Arc, Drawing, Item, Path, Text, box
from panewright.pack.bench import Bench
from panewright.pack.figures.finished import finished
from panewright.pack.figures.steps.arrow import arrow
from panewright.pack.figures.steps.edge import closed_behind

_LAYERS = (  # what a press takes, from the table upward: name, layer, thickness on the drawing
    ("pane, sunny side down", "pane", 4.0),
    ("film", "encapsulant", 1.2),
    ("cells, sunny side down", "cell", 1.2),
    ("film", "encapsulant", 1.2),
    ("back sheet", "bead", 0.9),
)


def enclosed(bench: Bench, text: float) -> Drawing:
    """The edge as it is when this step is done; for film, the stack as the press takes it. [mm]"""
    if bench.design.order.parts.encapsulation == "film":
        return Drawing("What the press takes", tuple(_stack(text)))
    return closed_behind(bench, text)


def _stack(text: float) -> Iterator[Item]:
    """Layers apart from each other, each with its name; sizes mean nothing."""
    foot, wide = 0.0, 30.0 * text
    for name, layer, thick in _LAYERS:
        yield box(0.0, foot, wide, foot + thick * text / 3, layer, filled=True)  # type: ignore[arg-type]
        yield Text((wide + 1.5 * text, foot + thick * text / 6 - 0.33 * text), name, text)
        foot += thick * text / 3 + 1.6 * text
    yield from arrow((wide / 2, foot + 2.0 * text), (wide / 2, foot - 0.6 * text), 0.9 * text)


def in_the_sun(bench: Bench, text: float) -> Drawing:
    """The panel square to the sun. [mm]"""
    drawn = finished(bench.design, text)
    frame = bench.design.structural.frame
    high = min(frame.outer_width_mm, frame.outer_height_mm)
    left = -9.0 * text - (frame.outer_width_mm - frame.pane_width_mm) / 2
    middle = left, _middle_y(drawn, high)
    sun: list[Item] = [Arc(middle, 1.8 * text, "mark", filled=True)]
    for way in (-0.9, 0.0, 0.9):
        start = middle[0] + 2.4 * text, middle[1] + way * 2.0 * text
        sun += arrow(start, (start[0] + 3.4 * text, start[1]), 0.8 * text)
    return drawn.with_items(sun)


def _middle_y(drawn: Drawing, high: float) -> float:
    """Half way up the panel as it is drawn."""
    first = drawn.items[0]
    ys = [y for _, y in first.points] if isinstance(first, Path) else [0.0, high]
    return (min(ys) + max(ys)) / 2
