"""Cutting across open orders: a plan made by a worker and kept in the records."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from panewright.desk.own_shelf import own_shelf
from panewright.desk.stores.cut_plan import Asked, Job, Plan, key_of
from panewright.desk.stores.cut_rows import Row, rows
from panewright.errors import PanewrightError, Problem, RecordError
from panewright.price.buying.cuts_together import Begun, Known, Stage, Tools

if TYPE_CHECKING:
    from panewright.desk import Made
    from panewright.desk.shop.who import Who
    from panewright.ledger.open import Ledger
    from panewright.ledger.stores.cuts import PieceCut, RowDone

_LONGEST_DONE = {"cut-rails": "rails", "clean-pane": "fronts", "tab-cells": "tabs", "join-columns": "buses"}


@dataclass(frozen=True, slots=True)
class Kept:
    """A plan out of the records, and which of its rows were cut."""

    number: int
    plan: Plan
    rows: tuple[Row, ...]
    done: Mapping[int, RowDone]
    by: str
    at: datetime


def asked(ledger: Ledger, numbers: tuple[str, ...]) -> tuple[Asked, ...]:
    """Orders as they stand, with the panels whose pieces were ticked as cut at the bench."""
    from panewright.ledger.orders.orders import find_order

    return tuple(Asked(each, find_order(ledger, each).text, _begun(ledger, each)) for each in numbers)


def _begun(ledger: Ledger, order: str) -> Begun:
    from panewright.ledger.serials.serials import serials
    from panewright.ledger.serials.steps import ticks

    counts = dict.fromkeys(_LONGEST_DONE.values(), 0)
    for each in serials(ledger, order=order):
        for tick in ticks(ledger, each.serial):
            if tick.done and tick.step in _LONGEST_DONE:
                counts[_LONGEST_DONE[tick.step]] += 1
    return Begun(**counts)


def tools_now(ledger: Ledger) -> Tools:
    """The shop's own: those of the last plan, else common practice."""
    from panewright.ledger.stores.cuts import plans

    found = plans(ledger, most=1)
    try:
        return _plan_of(found[0].text).tools if found else Tools()
    except RecordError:
        return Tools()


def job(
    ledger: Ledger,
    numbers: tuple[str, ...],
    keys: frozenset[str],
    tools: Tools,
    *,
    buys: bool,
    buys_sheets: bool = False,
) -> Job:
    """What a worker is asked: these orders, from what of the shop's own is named by its key."""
    from panewright.desk.stores.racks import sources
    from panewright.ledger.stores.cuts import pieces_cut

    if not numbers:
        raise RecordError([Problem("No order is chosen.", "Choose one or more.", key="order")])
    there = tuple(each for each in sources(ledger) if key_of(each) in keys)
    mine = tuple(each for each in pieces_cut(ledger) if each.order in numbers)
    return Job(asked(ledger, numbers), there, tools, buys, mine, buys_sheets)


def _nobody(_words: str) -> None:
    return None


def planned(told: Job, stage: Callable[[str], None] = _nobody) -> Plan:
    """The plan; an order that cannot be designed is told and left out. `stage` hears what is done next."""
    from panewright.desk.progress import at
    from panewright.desk.stores.racks import racks
    from panewright.price.buying.cuts_together import Job as Panels
    from panewright.price.buying.cuts_together import cut_together

    notes: list[str] = []
    made: list[tuple[Asked, Made]] = []
    for n, order in enumerate(told.orders):
        at(5 + 65 * n // len(told.orders))
        stage(f"Designing order {order.number}, {n + 1} of {len(told.orders)}.")
        if found := _designed(order, notes):
            made.append((order, found))
    at(70)
    shelf = own_shelf()
    panels = [Panels(o.number, m.design, m.design.order.job.panels, o.begun) for o, m in made]
    whole = _cut_whole((each for _, each in made), every=told.buys_sheets)
    there = racks(told.there, shelf, buys=told.buys, whole=whole)
    found_cuts = cut_together(panels, there, told.tools, known(told.cut), _heard(stage))
    at(98)
    inches = tuple(order.number for order, each in made if each.design.order.job.units == "us")
    return Plan(
        tuple(order.number for order, _ in made),
        "us" if made and len(inches) == len(made) else "metric",
        shelf.currency,
        told.tools,
        told.there,
        found_cuts,
        tuple(notes),
        tuple(sorted(known(told.cut).items())),
        tuple(order.number for order, each in made if not each.design.proven),
        tuple((order.number, each.design.revision) for order, each in made),
        inches,
    )


def _heard(stage: Callable[[str], None]) -> Callable[[Stage], None]:
    from panewright.desk.progress import at
    from panewright.pack.bench import count

    def heard(each: Stage) -> None:
        at(70 + 28 * (each.number - 1) // each.of)
        stage(f"Cutting {each.part}, part {each.number} of {each.of}: {count(each.pieces, 'piece')}.")

    return heard


def _cut_whole(made: Iterable[Made], *, every: bool) -> frozenset[str]:
    """Panes that the orders want cut from stock and not ordered to size; `every` pane, if so wanted."""
    designs = (each.design for each in made)
    return frozenset(
        each.structural.pane.sheet.name
        for each in designs
        if every or each.order.parts.glass_from == "cut from stock"
    )


def _designed(order: Asked, notes: list[str]) -> Made | None:
    from panewright.desk.designed import designed

    try:
        return designed(order.text, f"{order.number}.toml")
    except PanewrightError as mistake:
        notes.append(f"Order {order.number} is left out: {mistake.problems[0].reason} Mend it first.")
        return None


def known(cut: tuple[PieceCut, ...]) -> dict[Known, int]:
    """Pieces that were cut, as a plan counts them."""
    return {
        (each.order, each.item, each.name, each.length_mm, each.width_mm or 0.0): each.count for each in cut
    }


def keep(ledger: Ledger, plan: Plan, who: Who) -> int:
    """Keep a plan; its number."""
    from panewright.ledger.stores.cuts import keep_plan
    from panewright.paper.record import json_bytes

    return keep_plan(ledger, json_bytes(plan).decode(), by=who.by, at=who.at, tap=who.tap)


def kept(ledger: Ledger, number: int) -> Kept:
    """A plan by its number."""
    from panewright.ledger.stores.cuts import find_plan, rows_done

    found = find_plan(ledger, number)
    plan = _plan_of(found.text)
    done = {each.row: each for each in rows_done(ledger, number)}
    return Kept(number, plan, rows(plan), done, found.by, found.at)


def _plan_of(text: str) -> Plan:
    import json

    from panewright.desk.stores.plainly import read

    try:
        return read(Plan, json.loads(text))
    except ValueError as wrong:
        cure = "Make a plan anew; what was cut of this one stays counted."
        raise RecordError([Problem("Another Panewright made this plan.", cure, key="plan")]) from wrong
