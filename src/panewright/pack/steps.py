"""The steps in order, from the lot of cells to the last reading in the sun."""

from __future__ import annotations

from panewright.drawing.sheet import Caution, Page, Step, Steps, Words
from panewright.pack import caution, steps_cells, steps_close, steps_frame
from panewright.pack.bench import Bench


def steps(bench: Bench) -> tuple[Step, ...]:
    """Every step at the bench for one panel."""
    made = (
        steps_cells.sort_cells(bench),
        steps_frame.cut_rails(bench),
        steps_frame.drill_rails(bench),
        steps_frame.assemble_frame(bench),
        steps_frame.clean_glass(bench),
        steps_frame.set_pane(bench),
        steps_frame.cure_bead(bench),
        steps_cells.tab_cells(bench),
        steps_cells.string_cells(bench),
        steps_cells.join_columns(bench),
        steps_cells.bypass_diodes(bench),
        steps_cells.polarity(bench),
        steps_cells.insulation(bench),
        steps_close.encapsulate(bench),
        steps_close.close_back(bench),
        steps_close.label(bench),
        steps_close.measure(bench),
    )
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
