"""The assembly book: for somebody who builds a panel for the first time, with a figure for every step."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial

from panewright.drawing.paper_size import Size
from panewright.drawing.sheet import Block, Book, Caution, Heading, Numbers, Page, Step, Steps, Table, Words
from panewright.pack.bench import Bench, count, listed
from panewright.pack.figures.finished import finished
from panewright.pack.figures.scale import figure
from panewright.pack.figures.steps.step import step_figure
from panewright.pack.kit_claim import claims, what
from panewright.pack.pages import caution
from panewright.pack.pages.box import box_page
from panewright.pack.pages.caution import caution_page
from panewright.pack.pages.closing import closing_work_page
from panewright.pack.pages.corner import corner_pages
from panewright.pack.pages.frame import frame_pages
from panewright.pack.pages.layup import layup_pages
from panewright.pack.pages.readings import readings_pages
from panewright.pack.steps.steps import BenchStep, bench_steps
from panewright.price.kit import steps_of_shop

WORDS = (
    ("cell", "a wafer of silicon that makes about half a volt; it breaks at a touch"),
    ("busbar", "the printed line on a cell on which ribbon is soldered"),
    ("ribbon", "tinned copper: the narrow one joins cell to cell, the broad one (bus) joins columns"),
    (
        "sunny side",
        "the face that will look at the sun; the bench sees the other one, so drawings are mirrored",
    ),
    ("pane, rail, bead", "the glass, a side of the frame, and the silicone between them"),
    ("Voc, Isc", "volts with nothing joined to the leads; amperes with the leads joined to each other"),
    ("expect", "what a meter should show here, reckoned for this very panel; stop where it does not"),
)


def assembly_book(bench: Bench, order: str, stamp: str) -> Book:
    """All pages that a first-time builder needs, and no others."""
    job = bench.design.order.job
    mine = customer_steps(bench)
    pages = (
        _first(bench, mine),
        caution_page(),
        *_layup(bench),
        *frame_pages(bench),  # drilled by the shop or not: every hole has a letter that the work asks for
        corner_pages(bench)[0],
        box_page(bench),
        closing_work_page(bench),
        _building(mine),
        *readings_pages(bench),
    )
    return Book("Assembly book", order, bench.design.revision, job.paper, pages, job.units, stamp)


def _layup(bench: Bench) -> tuple[Page, ...]:
    """The pages that the steps speak of: both sides, ends, wiring, ribbon; without the curve."""
    return layup_pages(bench)[:-1]


def customer_steps(bench: Bench) -> tuple[BenchStep, ...]:
    """Every step that the shop has not done, with its figure."""
    done = steps_of_shop(bench.design.order.kit)
    return tuple(
        replace(each, step=replace(each.step, figure=step_figure(bench, each.key)))
        for each in bench_steps(bench)
        if each.key not in done
    )


def _first(bench: Bench, mine: tuple[BenchStep, ...]) -> Page:
    design, job = bench.design, bench.design.order.job
    hours = sum(each.minutes for each in mine) / 60
    days = sum(each.wait_h for each in mine) / 24
    drawn = figure(partial(finished, design), Size(168.0, 50.0), "What you are going to build", job.units)
    done = "Rails are sawn and drilled. " if steps_of_shop(design.order.kit) else ""
    blocks: list[Block] = [
        Words(
            f"You build one panel of {bench.say(design.label.pmp_w, 'W')}. {done}Read each step to its end "
            "before you begin it, do the check, write the reading. A practised hand takes "
            f"{hours:.0f} hours; take twice that the first time.",
            "lead",
        ),
        Caution(f"{caution.LIVE_SHORT} {caution.NOT_LISTED}"),
        drawn,
        Numbers(
            (
                ("Steps", str(len(mine))),
                ("Waiting, in all", f"{days:.0f}\u2009days"),
                ("Mass when done", bench.say(design.label.mass_kg, "kg")),
                ("Most volts, full sun", bench.say(design.label.voc_v, "V")),
            )
        ),
        *_brought(bench),
        *(Words(words) for words in claims(bench)),
        Heading("Tools"),
        Words(f"Have these at hand: {listed(list(_tools(mine)))}."),
        Heading("Words"),
        Table(("Word", "What it is"), WORDS, (0.2, 0.8), ("left", "left")),
    ]
    return Page("Before you begin", tuple(blocks))


def _brought(bench: Bench) -> list[Block]:
    if not bench.quote.brought:
        return []
    names = listed([what(line) for line in bench.quote.brought])
    return [Words(f"You bring {names}: measure them against the drawings before anything is glued.")]


def _tools(mine: tuple[BenchStep, ...]) -> Iterator[str]:
    """Each tool once, in the order in which it is first taken."""
    yield from dict.fromkeys(tool for each in mine for tool in each.step.tools)


def _building(mine: tuple[BenchStep, ...]) -> Page:
    steps: tuple[Step, ...] = tuple(each.step for each in mine)
    lead = (
        f"{count(len(steps), 'step')}. What moves in a step is drawn whole; what lies there already is "
        "dashed. "
        "Tick the box when the check holds. Where a reading is not what is expected, stop: a fault is mended "
        "easily now and hardly later."
    )
    return Page("Build it", (Words(lead), Steps(steps)))
