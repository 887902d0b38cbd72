"""Offers of cells ranked by what a delivered watt costs, in words and as a list."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from panewright.desk.lots.offered import Asked
from panewright.desk.lots.sampled import words
from panewright.drawing.listing import Column, Listing
from panewright.errors import Problem, SheetError
from panewright.lots.buying.compare import NEVER, ORDERS, Ranking, compare
from panewright.lots.buying.sample import Sample
from panewright.pack.leaf import CsvLeaf, WorkbookLeaf
from panewright.paper.leaf import render

_COLUMNS = (
    Column("offer"),
    Column("cells to buy", kind="count"),
    Column("packs", kind="count"),
    Column("enough with", "%", "number"),
    Column("first delivery", kind="money"),
    Column("a watt, mean", kind="money"),
    Column("a watt, 5 % below", kind="money"),
    Column("a watt, 95 % below", kind="money"),
    Column("orders that buy again", "%", "number"),
    Column("a panel", "W", "number"),
    Column("5 % of panels below", "W", "number"),
    Column("lost to unequal cells", "%", "number"),
    Column("panels that reach the rating", "%", "number"),
    Column("orders never complete", "%", "number"),
)


def ranked(asked: Asked, seed: int, caution: float = 0.0, orders: int = ORDERS) -> Ranking:
    """The offers from the best on; `SheetError` where one can never do."""
    try:
        return compare(asked.offers, asked.want, seed, orders, caution=caution)
    except ValueError as never:
        cure = "See its losses, its grades and the least grade that is wanted."
        raise SheetError([Problem(f"{never}.", cure, key="offer")]) from never


def told(asked: Asked, found: Ranking) -> Iterator[str]:
    """The ranking in words, the best first."""
    want = asked.want
    yield f"Wanted: {want.panels} panels of {want.cells_each} cells, enough with {want.sure:.1%}."
    samples = ((each.name, each.sample) for each in asked.offers)
    yield from (words(name, sample) for name, sample in samples if isinstance(sample, Sample))
    for place, reason in enumerate(found.reasons, start=1):
        yield f"{place}. {reason.words}"
    yield "Watts are of cells behind the order's cover, in full sun at 25 degC, ribbons and leads counted."


def listing(found: Ranking) -> Listing:
    """A row for each offer, the best first."""
    rows = tuple(
        (
            each.offer.name,
            each.need.bought,
            each.need.packs,
            round(100 * each.need.sure, 2),
            each.cost,
            *(_sold(money) for money in (each.per_watt, each.per_watt_low, each.per_watt_high)),
            round(100 * each.short, 1),
            round(each.watts, 2),
            round(each.watts_low, 2),
            round(100 * each.mismatch, 3),
            round(100 * each.reached, 1),
            round(100 * each.undelivered, 1),
        )
        for each in found.offers
    )
    return Listing("offers", _COLUMNS, rows)


def _sold(per_watt: Decimal) -> Decimal | None:
    """A price of a watt; nothing where none is sold."""
    return None if per_watt == NEVER else per_watt


def content(found: Ranking, name: str) -> bytes:
    """The list as a file of that name: CSV or XLSX."""
    if name.lower().endswith(".xlsx"):
        return render(WorkbookLeaf(name, (listing(found),)))
    return render(CsvLeaf(name, listing(found)))
