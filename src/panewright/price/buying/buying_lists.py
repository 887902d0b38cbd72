"""Buying lists for a spreadsheet; numbers stay numbers."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from panewright.drawing.listing import Column, Listing
from panewright.price.buying.buying import Purchase, SupplierList
from panewright.price.buying.delivery import Shipping
from panewright.price.money import amount

NO_SUPPLIER = "no supplier named"


TOO_LATE, IN_TIME = "too late to order", "in time"


def supplier_listing(found: SupplierList, currency: str, today: date) -> Listing:
    """What to order from one supplier, and by when."""
    columns = (
        Column("Part"),
        Column("Panes"),
        Column("Buy", "", "number"),
        Column("Sold by"),
        Column("Price", currency, "money"),
        Column("Cost", currency, "money"),
        Column("Lead days", "", "count"),
        Column("Pack", "", "number"),
        Column("Least", "", "number"),
        Column("Order by"),
        Column("Today"),
        Column("For orders"),
    )
    rows = tuple(
        (
            *(
                each.item,
                each.panes,
                each.buy,
                each.unit,
                each.source.price,
                each.cost,
                each.source.lead_days,
            ),
            *(each.source.pack or None, each.source.least or None),
            *(told(each.order_by), in_time(each, today), ", ".join(each.orders)),
        )
        for each in found.lines
    )
    return Listing(found.supplier or NO_SUPPLIER, columns, rows)


def supplier_words(found: SupplierList, currency: str) -> tuple[str, ...]:
    """Where a supplier is, whom to ask, and what is missing to its least sum."""
    known = found.record
    if known is None:
        return ()
    said = [words for words in (known.address, known.contact, known.note) if words]
    if found.short > 0:
        least, short = amount(known.least, currency), amount(found.short, currency)
        said.append(f"Delivers from {least} on: {short} more to order.")
    elif known.least > 0:
        said.append(f"Delivers from {amount(known.least, currency)} on.")
    return tuple(said)


def order_words(line: Purchase, today: date) -> str:
    """The last day to order a part, in words; nothing where nobody knows one."""
    if line.order_by is None:
        return ""
    day = line.order_by.isoformat()
    return f"{TOO_LATE}, was to be by {day}" if line.too_late(today) else f"order by {day}"


def in_time(line: Purchase, today: date) -> str:
    """Whether a part still comes in time, in a word; nothing where nobody knows or none is missing."""
    if line.order_by is None:
        return ""
    return TOO_LATE if line.too_late(today) else IN_TIME


def parts_listing(found: Iterable[Purchase], currency: str, today: date) -> Listing:
    """Every part that open orders take, and how what is missing comes about."""
    columns = (
        Column("Part"),
        Column("Panes"),
        Column("Supplier"),
        Column("Asked", "", "number"),
        Column("With losses", "", "number"),
        Column("In stock", "", "number"),
        Column("On order", "", "number"),
        Column("Missing", "", "number"),
        Column("Buy", "", "number"),
        Column("Sold by"),
        Column("Cost", currency, "money"),
        Column("Order by"),
        Column("Today"),
    )
    rows = tuple(
        (
            *(
                each.item,
                each.panes,
                each.source.supplier,
                each.asked,
                each.gross,
                each.in_stock,
                each.on_order,
            ),
            *(each.missing, each.buy, each.unit, each.cost),
            *(told(each.order_by), in_time(each, today)),
        )
        for each in found
    )
    return Listing("All parts", columns, rows)


def shipping_listing(found: Iterable[Shipping]) -> Listing:
    """What can leave when."""
    columns = (
        Column("Order"),
        Column("Promised"),
        Column("Goods there"),
        Column("Waits for"),
        Column("Hands done"),
        Column("Ready"),
        Column("Late", "days", "count"),
    )
    rows = tuple(
        (
            *(each.order, told(each.promised), told(each.goods_day), each.waits_for),
            *(told(each.done_day), told(each.ready), each.late_days),
        )
        for each in found
    )
    return Listing("Can leave", columns, rows)


def told(day: date | None) -> str:
    """A day, year first; nothing where there is none."""
    return day.isoformat() if day else ""
