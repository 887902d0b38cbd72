"""Cutting across open orders: a plan made by a worker, kept in the records, and ticked row by row."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from typing import TYPE_CHECKING, Literal

from panewright.desk.stores.racks import BOUGHT, Source
from panewright.errors import PanewrightError, Problem, RecordError
from panewright.price.cuts_together import Begun, Known, Together, Tools

if TYPE_CHECKING:
    from panewright.cutting.plan import BarCut
    from panewright.cutting.sheet_plan import SheetCut
    from panewright.cutting.spools import SpoolCut
    from panewright.desk import Made
    from panewright.desk.shop.who import Who
    from panewright.ledger.cuts import Cut, PieceCut, RowDone
    from panewright.ledger.open import Ledger
    from panewright.ledger.stock import Movement, Remnant

_TINY = Decimal("0.000001")
_LONGEST_DONE = {"cut-rails": "rails", "clean-pane": "fronts", "tab-cells": "tabs", "join-columns": "buses"}


@dataclass(frozen=True, slots=True)
class Asked:
    """An order to cut for: its text, and of how many panels what is cut already."""

    number: str
    text: str
    begun: Begun = field(default_factory=Begun)


@dataclass(frozen=True, slots=True)
class Job:
    """All that a plan is made from; a worker needs nothing else."""

    orders: tuple[Asked, ...]
    there: tuple[Source, ...]
    tools: Tools
    buys: bool
    cut: tuple[PieceCut, ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """A plan with what it was made for and from."""

    orders: tuple[str, ...]
    units: Literal["metric", "us"]
    currency: str
    tools: Tools
    there: tuple[Source, ...]
    together: Together
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Row:
    """One bar, sheet or spool of a plan, and all that is cut from it."""

    number: int  #: from 1
    form: Literal["bar", "sheet", "spool"]
    source: Source
    pieces: tuple[PieceCut, ...]  #: in the order in which they are cut; neighbours alike stand together
    rests: tuple[tuple[float, float | None], ...]  #: length and width of what goes back into the rack
    cut: BarCut | SheetCut | SpoolCut


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
    from panewright.ledger.orders import find_order

    return tuple(Asked(each, find_order(ledger, each).text, _begun(ledger, each)) for each in numbers)


def _begun(ledger: Ledger, order: str) -> Begun:
    from panewright.ledger.serials import serials
    from panewright.ledger.steps import ticks

    counts = dict.fromkeys(_LONGEST_DONE.values(), 0)
    for each in serials(ledger, order=order):
        for tick in ticks(ledger, each.serial):
            if tick.done and tick.step in _LONGEST_DONE:
                counts[_LONGEST_DONE[tick.step]] += 1
    return Begun(**counts)


def tools_now(ledger: Ledger) -> Tools:
    """The shop's own: those of the last plan, else common practice."""
    from panewright.ledger.cuts import plans

    found = plans(ledger, most=1)
    try:
        return _plan_of(found[0].text).tools if found else Tools()
    except RecordError:
        return Tools()


def job(ledger: Ledger, numbers: tuple[str, ...], keys: frozenset[str], tools: Tools, *, buys: bool) -> Job:
    """What a worker is asked: these orders, from what of the shop's own is named by its key."""
    from panewright.desk.stores.racks import sources
    from panewright.ledger.cuts import pieces_cut

    if not numbers:
        raise RecordError([Problem("No order is chosen.", "Choose one or more.", key="order")])
    there = tuple(each for each in sources(ledger) if key_of(each) in keys)
    mine = tuple(each for each in pieces_cut(ledger) if each.order in numbers)
    return Job(asked(ledger, numbers), there, tools, buys, mine)


def key_of(source: Source) -> str:
    """A source's name among all: the part and its key."""
    return f"{source.item}; {source.key}"


def planned(told: Job) -> Plan:
    """The plan; an order that cannot be designed is told and left out."""
    from panewright.desk.progress import at
    from panewright.desk.stores.racks import racks
    from panewright.price.cuts_together import Job as Panels
    from panewright.price.cuts_together import cut_together
    from panewright.shelf.load import load_shelf

    notes: list[str] = []
    made: list[tuple[Asked, Made]] = []
    for n, order in enumerate(told.orders):
        at(5 + 65 * n // len(told.orders))
        if found := _designed(order, notes):
            made.append((order, found))
    at(70)
    shelf = load_shelf()
    panels = [Panels(o.number, m.design, m.design.order.job.panels, o.begun) for o, m in made]
    there = racks(told.there, shelf, buys=told.buys, whole=_cut_whole(each for _, each in made))
    found_cuts = cut_together(panels, there, told.tools, known(told.cut))
    at(98)
    systems = {each.design.order.job.units for _, each in made}
    return Plan(
        tuple(order.number for order, _ in made),
        "us" if "us" in systems else "metric",  # inches are told with the millimetres beside
        shelf.currency,
        told.tools,
        told.there,
        found_cuts,
        tuple(notes),
    )


def _cut_whole(made: Iterable[Made]) -> frozenset[str]:
    """Panes that the orders want cut from stock, and not ordered to size."""
    designs = (each.design for each in made)
    return frozenset(
        each.structural.pane.sheet.name for each in designs if each.order.parts.glass_from == "cut from stock"
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
    from panewright.ledger.cuts import keep_plan
    from panewright.paper.record import json_bytes

    return keep_plan(ledger, json_bytes(plan).decode(), by=who.by, at=who.at, tap=who.tap)


def kept(ledger: Ledger, number: int) -> Kept:
    """A plan by its number."""
    from panewright.ledger.cuts import find_plan, rows_done

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


def rows(plan: Plan) -> tuple[Row, ...]:
    """Every bar, sheet and spool, numbered through."""
    return tuple(_numbered(plan))


def _numbered(plan: Plan) -> Iterator[Row]:
    number = 0
    for item, bars in plan.together.bars:
        for bar in bars.bars:
            number += 1
            rests = ((bar.kept.length_mm, None),) if bar.kept else ()
            source = _source(plan, item, bar.name, ("bar", bar.bar_mm, None))
            yield Row(number, "bar", source, _of_bar(item, bar), rests, bar)
    for item, sheets in plan.together.sheets:
        for sheet in sheets.sheets:
            number += 1
            source = _source(
                plan, item, sheet.sheet.name, ("sheet", sheet.sheet.width_mm, sheet.sheet.height_mm)
            )
            sides = tuple((each.width_mm, each.height_mm) for each in sheet.kept)
            yield Row(number, "sheet", source, _of_sheet(item, sheet), sides, sheet)
    for item, spools in plan.together.spools:
        for spool in spools.spools:
            number += 1
            source = _source(plan, item, spool.spool.name, ("spool", spool.spool.length_mm, None))
            left = (
                ((spool.left_mm, None),) if spool.left_mm and source.mark else ()
            )  # a lot's spool stays stock
            yield Row(number, "spool", source, _of_spool(item, spool), left, spool)


def proven(plan: Plan) -> dict[str, bool]:
    """Of each part, whether nothing costs less."""
    together = plan.together
    return {
        **{item: cuts.proven for item, cuts in together.bars},
        **{item: cuts.proven for item, cuts in together.sheets},
        **{item: cuts.proven for item, cuts in together.spools},
    }


Sold = tuple[Literal["bar", "sheet", "spool"], float, float | None]
"""Form, length and width of what is to be bought."""

_UNITS = {"bar": "bar", "sheet": "square metre", "spool": "metre"}


def _source(plan: Plan, item: str, key: str, sold: Sold) -> Source:
    """Where a row comes from; what is still to be bought has no place yet."""
    found = next((each for each in plan.there if (each.item, each.key) == (item, key)), None)
    form, length_mm, width_mm = sold
    return found or Source(key or BOUGHT, form, item, length_mm, width_mm, unit=_UNITS[form])


def _of_bar(item: str, bar: BarCut) -> tuple[PieceCut, ...]:
    return _runs([(each.order, item, each.name, each.length_mm, None) for each in bar.pieces])


def _of_sheet(item: str, sheet: SheetCut) -> tuple[PieceCut, ...]:
    return _runs(
        [(p.order, item, p.name, p.width_mm, p.height_mm) for p in (each.panel for each in sheet.panels)]
    )


def _of_spool(item: str, spool: SpoolCut) -> tuple[PieceCut, ...]:
    from panewright.ledger.cuts import PieceCut

    return tuple(PieceCut(p.order, item, p.name, p.length_mm, None, n) for p, n in spool.pieces)


def _runs(pieces: list[tuple[str, str, str, float, float | None]]) -> tuple[PieceCut, ...]:
    """Neighbours alike as one line with their number."""
    from itertools import groupby

    from panewright.ledger.cuts import PieceCut

    return tuple(PieceCut(*kind, len(list(run))) for kind, run in groupby(pieces))


def tick(ledger: Ledger, number: int, row: int, who: Who) -> tuple[Remnant, ...]:
    """A row was cut: what goes back into the rack, each with the mark to write on it."""
    from panewright.ledger.cuts import cut

    found = kept(ledger, number)
    what = _cut_of(ledger, found, _row(found, row))
    cut(ledger, number, row, what, by=who.by, at=who.at, tap=who.tap)
    return what.kept


def untick(ledger: Ledger, number: int, row: int, who: Who) -> None:
    """A row was not cut after all."""
    from panewright.ledger.cuts import take_back

    take_back(ledger, number, row, by=who.by, at=who.at, tap=who.tap)


def _row(found: Kept, number: int) -> Row:
    for each in found.rows:
        if each.number == number:
            return each
    raise RecordError([Problem("The plan has no such row.", "Look at the plan again.", key="row")])


def _cut_of(ledger: Ledger, found: Kept, row: Row) -> Cut:
    from panewright.ledger.cuts import Cut

    return Cut(row.pieces, tuple(_moved(ledger, row)), row.source.mark, tuple(_marked(found, row)))


def marks(found: Kept, row: Row) -> tuple[str, ...]:
    """What is written on the rests of a row: of which plan and row they are."""
    stands = found.done.get(row.number)
    if stands and stands.done:
        return stands.kept
    again = f".{stands.version + 1}" if stands else ""
    letters = ("", *"bcdefghijklmnopqrstuvwxyz")
    return tuple(f"C{found.number}-{row.number}{letters[n]}{again}" for n in range(len(row.rests)))


def _marked(found: Kept, row: Row) -> Iterator[Remnant]:
    from panewright.ledger.stock import Remnant

    for mark, (length_mm, width_mm) in zip(marks(found, row), row.rests, strict=True):
        yield Remnant(mark, row.source.item, length_mm, width_mm, row.source.lot)


def _moved(ledger: Ledger, row: Row) -> Iterator[Movement]:
    """What leaves the stock: one bar, or so many metres."""
    from panewright.ledger.stock import Movement

    source, orders = row.source, {each.order for each in row.pieces}
    order = orders.pop() if len(orders) == 1 else ""
    if source.mark:
        return
    if row.form == "bar":
        unit, lot = _bar_now(ledger, source)
        yield Movement(source.item, Decimal(1), unit, "used", lot, order=order)
        return
    if row.form == "sheet":
        area_m2 = Decimal(str(source.length_mm)) * Decimal(str(source.width_mm)) / 1_000_000
        yield Movement(source.item, area_m2.quantize(_TINY), source.unit, "used", source.lot, order=order)
        return
    for reason, length_mm in (("used", row.cut.cut_mm), ("wasted", row.cut.lost_mm)):  # type: ignore[union-attr]
        if length_mm > 0:
            metres = (Decimal(str(length_mm)) / 1000).quantize(_TINY)
            yield Movement(source.item, metres, source.unit, reason, source.lot, order=order)


def _bar_now(ledger: Ledger, source: Source) -> tuple[str, str]:
    """Of which lot the bar is that was to be bought: of any that has come in meanwhile."""
    from panewright.ledger.stock import stock

    if source.key != BOUGHT:
        return source.unit, source.lot
    there = [
        each for each in stock(ledger, item=source.item) if each.unit in ("bar", "bars") and each.amount >= 1
    ]
    return (there[0].unit, there[0].lot) if there else (source.unit, "")
