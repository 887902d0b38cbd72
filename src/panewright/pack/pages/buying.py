"""Buying papers: what is missing, a list to tick a supplier, and what can leave when."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from panewright.drawing.drawing import Align
from panewright.drawing.sheet import Block, Book, Fields, Heading, Page, Table, Words
from panewright.pack.bench import count
from panewright.pack.leaf import BookLeaf, CsvLeaf, Leaf, WorkbookLeaf
from panewright.price.buying.buying import Purchase, SupplierList
from panewright.price.buying.buying_lists import (
    NO_SUPPLIER,
    parts_listing,
    shipping_listing,
    supplier_listing,
    supplier_words,
    told,
)
from panewright.price.buying.delivery import Shipping
from panewright.price.money import amount

_POOL = (
    "All accepted orders in one pool: asked is what their panels still take, with losses counts breakage and "
    "waste for all of them together, missing is that less stock and goods on order. Buy is raised to the "
    "least "
    "and to whole packs. Suppliers of the packaged shelf are invented."
)
_PROMISE = (
    "By lead times as the shelf states them, hands by the hours of the order promised first, cures on top. "
    "A dash: nobody knows, because a part has no lead time."
)


def buying_leaves(
    suppliers: tuple[SupplierList, ...],
    parts: tuple[Purchase, ...],
    shipping: tuple[Shipping, ...],
    *,
    day: date,
    currency: str,
) -> tuple[Leaf, ...]:
    """Pages to print, one workbook, one plain list."""
    lists = tuple(supplier_listing(each, currency, day) for each in suppliers)
    everything = parts_listing(parts, currency, day)
    pages = (
        _overview(parts, shipping, currency),
        *(_supplier_page(each, currency, day) for each in suppliers),
    )
    book = Book("To buy", f"as of {day.isoformat()}", day.isoformat(), "A4", pages)
    return (
        BookLeaf("buying.pdf", book),
        WorkbookLeaf("buying.xlsx", (everything, *lists, shipping_listing(shipping))),
        CsvLeaf("buying.csv", everything),
    )


def _overview(parts: tuple[Purchase, ...], shipping: tuple[Shipping, ...], currency: str) -> Page:
    missing = [each for each in parts if each.missing > 0]
    cost = sum((each.cost for each in missing if each.cost is not None), Decimal(0))
    lead = (
        f"{count(len(missing), 'part')} of {len(parts)} missing for {count(len(shipping), 'order')}; to "
        "buy for "
        f"{amount(cost, currency)}."
        if missing
        else f"Nothing is missing for {count(len(shipping), 'order')}."
    )
    blocks: list[Block] = [Words(lead, "lead"), Heading("What can leave when"), _shipping(shipping)]
    blocks += [Words(_PROMISE, "small"), Heading("Every part"), _parts(parts), Words(_POOL, "small")]
    return Page("To buy", tuple(blocks))


def _shipping(found: tuple[Shipping, ...]) -> Table:
    rows = tuple(
        (
            each.order,
            told(each.promised) or "–",
            told(each.goods_day) or "–",
            each.waits_for or "nothing",
            told(each.ready) or "–",
            _late(each),
        )
        for each in found
    )
    heads = ("Order", "Promised", "Goods there", "Waits for", "Ready", "")
    return Table(heads, rows, (0.14, 0.14, 0.14, 0.3, 0.14, 0.14), ("left",) * 6)


def _late(found: Shipping) -> str:
    if found.late_days is None:
        return ""
    return f"LATE {count(found.late_days, 'day')}" if found.late_days else "in time"


def _parts(parts: tuple[Purchase, ...]) -> Table:
    heads = ("Part", "Asked", "With losses", "In stock", "On order", "Missing", "Buy", "")
    rows = tuple(
        (
            each.item,
            *(_figure(value) for value in (each.asked, each.gross, each.in_stock, each.on_order)),
            *(_figure(value) for value in (each.missing, each.buy)),
            "" if each.unit == "each" else each.unit,
        )
        for each in parts
    )
    align: tuple[Align, ...] = ("left", *("right",) * 6, "left")
    return Table(heads, rows, (0.3, 0.1, 0.1, 0.1, 0.1, 0.1, 0.08, 0.12), align)


def _supplier_page(found: SupplierList, currency: str, day: date) -> Page:
    rows = tuple(
        (
            f"{each.item}: {each.panes}" if each.panes else each.item,
            f"{each.buy.normalize():f}" + ("" if each.unit == "each" else f" {each.unit}"),
            "ask" if each.source.price is None else amount(each.source.price, ""),
            "ask" if each.cost is None else amount(each.cost, ""),
            "–" if each.source.lead_days is None else str(each.source.lead_days),
            f"TOO LATE: {told(each.order_by)}" if each.too_late(day) else told(each.order_by),
            ", ".join(each.orders),
        )
        for each in found.lines
    )
    heads = ("Part", "Buy", f"One, {currency}", f"Cost, {currency}", "Lead days", "Order by", "For")
    align: tuple[Align, ...] = ("left", "right", "right", "right", "right", "left", "left")
    blocks: tuple[Block, ...] = (
        Words(f"{count(len(rows), 'part')}, {amount(found.cost, currency)} as the shelf has it.", "lead"),
        *(Words(words) for words in supplier_words(found, currency)),
        Fields((("our number", ""), ("ordered on", ""), ("by", "")), 3),
        Table(heads, rows, (0.27, 0.14, 0.1, 0.12, 0.08, 0.13, 0.16), align, ticks=True),
    )
    return Page(found.supplier or NO_SUPPLIER.capitalize(), blocks)


def _figure(value: Decimal) -> str:
    """To a hundredth; a dash for nothing."""
    return f"{value.quantize(Decimal('0.01')).normalize():f}" if value else "–"
