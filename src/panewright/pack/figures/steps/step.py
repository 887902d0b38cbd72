"""Which figure belongs to which step."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from panewright.drawing.drawing import Drawing
from panewright.drawing.paper_size import Size
from panewright.drawing.sheet import Figure
from panewright.pack.bench import Bench
from panewright.pack.figures.box import box_wiring
from panewright.pack.figures.finished import finished
from panewright.pack.figures.scale import figure
from panewright.pack.figures.steps import cells, closing, edge, frame, layup

ROOM = Size(144.0, 62.0)  #: on paper, beside the step's number
Draw = Callable[[Bench, float], Drawing]


def _open_box(bench: Bench, text: float) -> Drawing:
    return box_wiring(bench.design.layup, text)


def _finished(bench: Bench, text: float) -> Drawing:
    return finished(bench.design, text)


DRAWN: dict[str, tuple[Draw, str]] = {
    "sort-cells": (cells.sorted_cells, "Which cells go in"),
    "trial-patch": (cells.trial_patch, "Does it set beside your flux?"),
    "cut-rails": (frame.sawn_rails, "Rails as sawn"),
    "drill-rails": (frame.drilled_rail, "Every hole from the left end"),
    "join-frame": (frame.joined_frame, "Press the corners together, then square"),
    "clean-pane": (frame.cleaned_pane, "The pane and its rim"),
    "set-pane": (edge.pane_over_bead, "The pane comes down on the bead"),
    "cure-bead": (edge.pane_in_bead, "Flat and unmoved until it has cured"),
    "tab-cells": (cells.tabbed_cells, "Ribbons on the first cells"),
    "string-column": (layup.one_column, "The first column on the template"),
    "join-columns": (layup.buses, "Bus ribbons from column to column"),
    "bypass-diodes": (_open_box, "In the open box: each diode on its two terminals"),
    "polarity": (layup.meter_on_leads, "Red on plus, black on minus"),
    "insulation": (layup.tester_on_frame, "Both leads together against the bare frame"),
    "encapsulate": (closing.enclosed, "When it is done, cut through the edge"),
    "close-back": (layup.closed_back, "The box over the leads"),
    "label": (layup.label_place, "On the back, readable when it hangs"),
    "measure-sun": (closing.in_the_sun, "Square to the sun"),
}
_DIAGRAMS = frozenset({"bypass-diodes"})


def step_figure(bench: Bench, key: str, room: Size = ROOM) -> Figure:
    """The figure of a step, at the largest round scale that fits; the finished panel for an unknown one."""
    draw, caption = DRAWN.get(key, (_finished, "The finished panel"))
    film = key == "encapsulate" and bench.design.order.parts.encapsulation == "film"
    made = figure(partial(draw, bench), room, caption, bench.design.order.job.units)
    if key in _DIAGRAMS or film:
        return Figure(made.drawing, made.scale, "What the press takes" if film else caption, to_scale=False)
    return made
