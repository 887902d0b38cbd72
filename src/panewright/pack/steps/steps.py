"""The steps in order, from the lot of cells to the last reading in the sun."""

from __future__ import annotations

from collections.abc import Callable

from panewright.drawing.sheet import Caution, Page, Step, Steps, Words
from panewright.pack.bench import Bench
from panewright.pack.pages import caution
from panewright.pack.steps import cells as steps_cells
from panewright.pack.steps import close as steps_close
from panewright.pack.steps import frame as steps_frame

Make = Callable[[Bench], Step | None]

_FRAME: tuple[Make, ...] = (steps_frame.cut_rails, steps_frame.drill_rails, steps_frame.assemble_frame)
_PANE: tuple[Make, ...] = (steps_frame.set_pane, steps_frame.cure_bead)
_STRING: tuple[Make, ...] = (steps_cells.tab_cells, steps_cells.string_cells, steps_cells.join_columns)
_END: tuple[Make, ...] = (steps_close.label, steps_close.measure)

ON_THE_FRAMED_PANE: tuple[Make, ...] = (
    steps_cells.sort_cells,
    *_FRAME,
    steps_frame.clean_glass,
    *_PANE,
    *_STRING,
    steps_cells.bypass_diodes,
    steps_cells.polarity,
    steps_cells.insulation,
    steps_close.encapsulate,
    steps_close.close_back,
    *_END,
)
"""A pour needs the framed pane as its tray, an air gap the frame as its walls."""

IN_FILM: tuple[Make, ...] = (
    steps_cells.sort_cells,
    steps_frame.clean_glass,
    *_STRING,
    steps_close.encapsulate,
    *_FRAME,
    *_PANE,
    steps_cells.bypass_diodes,
    steps_close.close_back,
    steps_cells.polarity,
    steps_cells.insulation,
    *_END,
)
"""A press takes glass, film, cells and sheet without a frame; what is laminated is framed then."""


def steps(bench: Bench) -> tuple[Step, ...]:
    """Every step at the bench for one panel."""
    order = IN_FILM if bench.design.order.parts.encapsulation == "film" else ON_THE_FRAMED_PANE
    made = (step(bench) for step in order)
    return tuple(step for step in made if step is not None)


def steps_page(bench: Bench) -> Page:
    """All steps; the page runs on as far as they need."""
    minutes = sum(step.minutes for step in steps(bench))
    lead = (
        f"One panel takes about {minutes / 60:.1f} hours of hands, waiting not counted. Tick the box when "
        "the check holds; write the reading beside what is expected. Stop where they disagree: a fault "
        "is cheapest here."
    )
    return Page("Steps", (Words(lead), Caution(f"{caution.LIVE} {caution.SOLDER}"), Steps(steps(bench))))
