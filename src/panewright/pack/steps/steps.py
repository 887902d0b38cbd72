"""The steps in order, from the lot of cells to the last reading in the sun."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from panewright.bench.expected import Expected
from panewright.bench.readings import readings_of
from panewright.drawing.sheet import Caution, Page, Step, Steps, Words
from panewright.pack.bench import Bench, listed
from panewright.pack.pages import caution
from panewright.pack.steps import cells as steps_cells
from panewright.pack.steps import close as steps_close
from panewright.pack.steps import frame as steps_frame
from panewright.pack.steps.material import material
from panewright.pack.steps.takes import takes
from panewright.pack.steps.tools import tools

Make = Callable[[Bench], Step | None]

_FRAME: tuple[Make, ...] = (steps_frame.cut_rails, steps_frame.drill_rails, steps_frame.assemble_frame)
_PANE: tuple[Make, ...] = (steps_frame.set_pane, steps_frame.cure_bead)
_STRING: tuple[Make, ...] = (steps_cells.tab_cells, steps_cells.string_cells, steps_cells.join_columns)
_END: tuple[Make, ...] = (steps_close.label, steps_close.measure)

_BOX: tuple[Make, ...] = (steps_cells.bypass_diodes, steps_close.close_back)

ON_THE_FRAMED_PANE: tuple[Make, ...] = (
    steps_cells.sort_cells,
    steps_close.trial_patch,
    *_FRAME,
    steps_frame.clean_glass,
    *_PANE,
    *_STRING,
    steps_cells.polarity,
    steps_cells.insulation,
    steps_close.encapsulate,
    *_BOX,
    *_END,
)
"""A pour needs the framed pane as its tray."""

ON_A_BOARD: tuple[Make, ...] = (
    steps_cells.sort_cells,
    *_FRAME,
    steps_frame.clean_glass,
    *_PANE,
    *_STRING,
    steps_cells.polarity,
    steps_close.encapsulate,
    steps_cells.insulation,
    *_BOX,
    *_END,
)
"""An air gap has the frame as its walls; the cells come near it only with their board."""

IN_FILM: tuple[Make, ...] = (
    steps_cells.sort_cells,
    steps_frame.clean_glass,
    *_STRING,
    steps_close.encapsulate,
    *_FRAME,
    *_PANE,
    *_BOX,
    steps_cells.polarity,
    steps_cells.insulation,
    *_END,
)
"""A press takes glass, film, cells and sheet without a frame; what is laminated is framed then."""


TURNS = {"silicone pour": ON_THE_FRAMED_PANE, "film": IN_FILM, "air gap": ON_A_BOARD}


KEYS: dict[Make, str] = {
    steps_cells.sort_cells: "sort-cells",
    steps_frame.cut_rails: "cut-rails",
    steps_frame.drill_rails: "drill-rails",
    steps_frame.assemble_frame: "join-frame",
    steps_frame.clean_glass: "clean-pane",
    steps_frame.set_pane: "set-pane",
    steps_frame.cure_bead: "cure-bead",
    steps_cells.tab_cells: "tab-cells",
    steps_cells.string_cells: "string-column",
    steps_cells.join_columns: "join-columns",
    steps_cells.bypass_diodes: "bypass-diodes",
    steps_cells.polarity: "polarity",
    steps_cells.insulation: "insulation",
    steps_close.trial_patch: "trial-patch",
    steps_close.encapsulate: "encapsulate",
    steps_close.close_back: "close-back",
    steps_close.label: "label",
    steps_close.measure: "measure-sun",
}
"""What records call each step, for ever: a title may be said better, a key stays."""


TITLES = {"tab-cells": "tab the cells", "string-column": "string the columns", "label": "make the label"}


@dataclass(frozen=True, slots=True)
class BenchStep:
    """One step with what records and screens need beside its words."""

    key: str
    step: Step
    readings: tuple[Expected, ...]
    wait_h: float  #: after the hands are done, before the next step on this panel
    meanwhile: tuple[str, ...]  #: keys of steps that can be done while it waits
    material: tuple[str, ...]  #: kinds of what goes in

    @property
    def minutes(self) -> float:
        """Of hands."""
        return self.step.minutes


def bench_steps(bench: Bench) -> tuple[BenchStep, ...]:
    """Every step at the bench for one panel, with its key, its readings and its waiting."""
    order = TURNS[bench.design.order.parts.encapsulation]
    made = ((KEYS[make], make(bench)) for make in order)
    return tuple(
        BenchStep(
            key,
            _equipped(bench, key, step),
            readings_of(bench.design, key),
            wait_h(bench, key),
            meanwhile(bench, key),
            material(bench, key),
        )
        for key, step in made
        if step is not None
    )


def _equipped(bench: Bench, key: str, step: Step) -> Step:
    """A step with its tools, what goes in, and its waiting."""
    return replace(step, tools=tools(bench, key), takes=takes(bench, key), wait=_waiting(bench, key))


def _waiting(bench: Bench, key: str) -> str:
    """How long a step is left alone, and what need not wait for it."""
    hours, others = wait_h(bench, key), meanwhile(bench, key)
    if not hours:
        return ""
    long = f"{hours / 24:.0f} days" if hours > 24 else f"{hours:.0f}\u2009h"
    known = [TITLES[each] for each in others if each in TITLES]
    if len(known) < len(others):
        known = ["all the steps before the pour"]
    free = f"; meanwhile {listed(known)}" if others else ""
    return f"{long} before the next step on this panel{free}."


def wait_h(bench: Bench, key: str) -> float:
    """Hours that a step needs after the hands are done. [h]"""
    design = bench.design
    if key == "cure-bead":
        return 24.0 * steps_frame.cure_days(design.structural.bead.bite_mm)
    if key == "encapsulate":
        return steps_close.sets_h(bench)
    if key == "trial-patch" and design.closing.pour:
        return design.closing.pour.work.full_h
    return steps_close.GLUE_H if key == "close-back" else 0.0


def meanwhile(bench: Bench, key: str) -> tuple[str, ...]:
    """Keys of the steps that need not wait for this one."""
    if key == "cure-bead" and bench.design.order.parts.encapsulation != "film":
        return ("tab-cells", "string-column")
    if key == "trial-patch":
        return _before_the_pour()
    return ("label",) if key == "close-back" else ()


def _before_the_pour() -> tuple[str, ...]:
    """All that is done while a trial patch sets."""
    keys = [KEYS[make] for make in ON_THE_FRAMED_PANE]
    return tuple(keys[keys.index("trial-patch") + 1 : keys.index("encapsulate")])


def steps(bench: Bench) -> tuple[Step, ...]:
    """Every step at the bench for one panel, in words."""
    return tuple(each.step for each in bench_steps(bench))


def steps_page(bench: Bench) -> Page:
    """All steps; the page runs on as far as they need."""
    minutes = sum(step.minutes for step in steps(bench))
    lead = (
        f"One panel takes about {minutes / 60:.1f} hours of hands, waiting not counted. Tick the box when "
        "the check holds; write the reading beside what is expected. Stop where they disagree: a fault "
        "is cheapest here."
    )
    return Page("Steps", (Words(lead), Caution(f"{caution.LIVE} {caution.SOLDER}"), Steps(steps(bench))))
