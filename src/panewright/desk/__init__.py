"""One thin function for each thing a person can ask for; commands and pages call only these."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from panewright.desk.own_shelf import own_shelf

if TYPE_CHECKING:
    from panewright.bench.expected import Condition
    from panewright.bench.judge import Judged
    from panewright.circuit.line import LineOf
    from panewright.desk.paper import Paper
    from panewright.pack.steps.steps import BenchStep
    from panewright.panel.built import Built
    from panewright.panel.design import Design
    from panewright.panel.happened import Happened
    from panewright.panel.what_if import CellState, Seen
    from panewright.price.actuals import Actuals
    from panewright.price.offers.carriage import Carriage
    from panewright.price.offers.offer import Offer
    from panewright.price.offers.quote import Quote


@dataclass(frozen=True, slots=True)
class Made:
    """A design with its price."""

    design: Design
    quote: Quote
    actuals: Actuals | None = None  #: the shop's own figures that the price leans on


def read(path: Path) -> bytes:
    """An order file's bytes."""
    from panewright.desk.folder import read as read_file

    return read_file(path)


def design(data: bytes, file: str, actuals: Actuals | None = None) -> Made:
    """Read, design and price one order; `OrderError` with every mistake where it is wrong.

    `actuals` is what this shop's own work says of breakage, waste and hours (`desk.actuals`).
    """
    from panewright.errors import OrderError
    from panewright.order.parse import parse_bytes
    from panewright.order.places import placed
    from panewright.pack.packing import packing
    from panewright.panel.choose import design_panel
    from panewright.price.offers.quote import quote

    shelf = own_shelf()
    order = parse_bytes(data, file, shelf)
    try:
        made = design_panel(order, shelf)
    except OrderError as mistake:
        raise OrderError([placed(each, file, order.text) for each in mistake.problems]) from mistake
    return Made(made, quote(made, shelf, actuals, packing(made, shelf)), actuals)


def priced(made: Made, actuals: Actuals | None) -> Made:
    """The same design at what this shop's own work says; as `design` prices it."""
    from panewright.pack.packing import packing
    from panewright.price.offers.quote import quote

    shelf = own_shelf()
    return Made(made.design, quote(made.design, shelf, actuals, packing(made.design, shelf)), actuals)


def verdict(made: Made) -> str:
    """What a maker reads on the screen."""
    from panewright.pack.verdict import verdict as words

    return words(made.design, made.quote)


def as_json(made: Made) -> str:
    """Everything a program needs."""
    from panewright.pack.pack import record
    from panewright.paper.record import json_bytes

    return json_bytes(record(made.design, made.quote)).decode()


def offer(made: Made, day: date | None = None) -> Offer:
    """The price with its breaks, tax, days and what a market asks; without a day it is left to be written."""
    from panewright.pack.packing import packing
    from panewright.price.offers.breaks import breaks
    from panewright.price.offers.offer import offer as offered

    found = breaks(made.design, own_shelf(), made.quote, made.actuals, packs=packing)
    return offered(made.design, made.quote, found, day=day, reckoned=carriage(made))


def carriage(made: Made) -> Carriage | None:
    """What sending the order costs, by its crates and the shelf's carriers; None where it is collected."""
    from panewright.crate.crated import crated
    from panewright.pack.carriage import carriage as told
    from panewright.pack.sent import asked

    return told(made.design, crated(asked(made.design, made.quote.lines)))


def write_quote(made: Made, file: Path, day: date | None = None) -> tuple[str, ...]:
    """Write the quote to send, over one that is there; what to tell the maker of it."""
    from panewright.desk.folder import write_all
    from panewright.pack.pack import quote_leaf
    from panewright.pack.pages.money import told
    from panewright.paper.leaf import render

    offered = offer(made, day)
    write_all(file.parent, {file.name: render(quote_leaf(made.design, made.quote, offered))})
    return (*told(made.quote, offered), *boxes(made))


def boxes(made: Made) -> tuple[str, ...]:
    """What of the order its papers cannot print; nothing where all prints."""
    from panewright.order.letters import boxes_told

    said = boxes_told(made.design.order.text)
    return (said,) if said else ()


def as_kit(made: Made) -> Made:
    """The same order sold as a kit, priced as one."""
    from panewright.pack.packing import packing
    from panewright.price.kit import as_kit as sold_so
    from panewright.price.offers.quote import quote

    if made.design.order.kit.is_kit:
        return made
    design, shelf = sold_so(made.design), own_shelf()
    return Made(design, quote(design, shelf, made.actuals, packing(design, shelf)), made.actuals)


def sold_otherwise(made: Made) -> tuple[str, ...]:
    """Said of a kit whose order sells finished panels; nothing where it sells kits."""
    if made.design.order.kit.is_kit:
        return ()
    return (
        'The order sells finished panels: this is the kit it would be. Write sold_as = "kit" under [kit].',
    )


def write_kit(made: Made, folder: Path) -> tuple[str, ...]:
    """Write packing list and assembly book of a kit; the names of the files."""
    from panewright.desk.folder import write_all
    from panewright.pack.pack import kit_leaves
    from panewright.paper.leaf import render

    files = {leaf.name: render(leaf) for leaf in kit_leaves(made.design, made.quote)}
    write_all(folder, files)
    return tuple(files)


def write_pack(made: Made, folder: Path) -> tuple[str, ...]:
    """Write the build pack; the names of its files."""
    from panewright.desk.folder import write_all
    from panewright.desk.packed import gone, record_first, refuse_others
    from panewright.pack.pack import make_pack
    from panewright.paper.leaf import render

    files = {leaf.name: render(leaf) for leaf in make_pack(made.design, made.quote, offer(made)).leaves}
    refuse_others(folder, files)
    write_all(folder, record_first(files), gone(folder, files))
    return tuple(files)


def papers(made: Made) -> tuple[Paper, ...]:
    """Every document of the build pack; its bytes are made when they are asked for."""
    from panewright.desk.paper import papers_of
    from panewright.pack.pack import make_pack

    return papers_of(make_pack(made.design, made.quote, offer(made)))


def drawing(made: Made, side: Literal["front", "bench"], classes: Mapping[int, str] | None = None) -> str:
    """The lay-up from one side as an svg element for a page; `classes` marks cells by their numbers."""
    from panewright.layup.drawn.parted import parted
    from panewright.pack.figures.finished import rim
    from panewright.paper.screen import screen

    seen: Literal["front", "behind"] = "front" if side == "front" else "behind"
    return screen(parted(made.design.layup, seen, rim(made.design.structural.frame)), classes)


def drawing_style() -> str:
    """The style sheet that pages with such a drawing need."""
    from panewright.paper.screen import stylesheet

    return stylesheet()


def what_if(made: Made, states: Mapping[int, CellState], line_of: LineOf | None = None) -> Seen:
    """The panel with some of its cells shaded, cracked or exchanged, by their numbers on the drawing."""
    from panewright.circuit.line import as_written
    from panewright.panel.what_if import what_if as seen

    return seen(made.design, states, line_of or as_written)


def quick_lines() -> LineOf:
    """Who answers `what_if` quickly; takes seconds to load, and minutes the first time on a machine."""
    from panewright.desk.quick import quick_lines as loaded

    return loaded()


def steps(made: Made) -> tuple[BenchStep, ...]:
    """Every step at the bench: its words, minutes, waiting, and what to read."""
    from panewright.pack.bench import Bench
    from panewright.pack.steps.steps import bench_steps

    return bench_steps(Bench(made.design, made.quote))


def build(made: Made, happened: Happened) -> Built:
    """One serial as it really is, judged afresh; `BuiltError` with every mistake in what is said of it."""
    from panewright.panel.built import build as judged

    return judged(made.design, own_shelf(), happened)


def judge_reading(made: Made, key: str, value: float, at: Condition) -> Judged:
    """One reading against what this panel should read in that light and heat; `KeyError` for another key."""
    from panewright.bench.judge import judge_reading as judge
    from panewright.bench.readings import readings_of

    expected = {each.key: each for each in readings_of(made.design, key.partition(".")[0])}[key]
    return judge(expected, value, at.irradiance_w_m2, at.cell_c)


def new_order() -> str:
    """A commented order to start from."""
    from panewright.order.template import template

    return template()


def write_new_order(path: Path) -> None:
    """Write a commented order to a file that is not there yet."""
    from panewright.desk.folder import write_new

    write_new(path, new_order().encode())
