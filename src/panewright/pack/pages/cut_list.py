"""What a cutting plan takes in all: bars, sheets and spools to buy with their money, and what lies there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from panewright.cutting.plan import BarCut
from panewright.cutting.sheets.sheet_plan import SheetCut
from panewright.cutting.spools import SpoolCut
from panewright.drawing.sheet import Page, Words
from panewright.pack.bench import listed, told
from panewright.pack.heading import NOT_PROVEN
from panewright.pack.pages.cut_sheets import CutRow, CutSheets
from panewright.pack.pages.table import words_table
from panewright.price.money import amount
from panewright.units import show


@dataclass(frozen=True, slots=True)
class Taken:
    """So many alike, of one part: to buy, or where they lie."""

    item: str
    what: str  #: form and size
    place: str  #: '' where it is bought
    number: int
    price: Decimal | None  #: of one


def taken(plan: CutSheets) -> tuple[Taken, ...]:
    """What is bought first, then what lies there, each in the plan's order of parts."""
    counts: dict[tuple[str, str, str, Decimal | None], int] = {}
    for row in plan.rows:
        key = (
            part_name(row),
            _what(row, plan.part_units(row.item)),
            "" if row.bought else row.place,
            _price(row),
        )
        counts[key] = counts.get(key, 0) + 1
    found = [Taken(item, what, place, n, price) for (item, what, place, price), n in counts.items()]
    return tuple(sorted(found, key=lambda each: each.place != ""))


def part_name(row: CutRow) -> str:
    """What a part is called where it stands alone: a ribbon's name is its size."""
    return f"ribbon {row.item}" if isinstance(row.cut, SpoolCut) else row.item


def _price(row: CutRow) -> Decimal | None:
    if not row.bought:
        return None
    if isinstance(row.cut, BarCut):
        return row.cut.price
    return row.cut.sheet.price if isinstance(row.cut, SheetCut) else row.cut.spool.price


def _what(row: CutRow, units: str) -> str:
    if isinstance(row.cut, BarCut):
        return f"bar of {told(round(row.cut.bar_mm, 2), units)}"
    if isinstance(row.cut, SheetCut):
        sheet = row.cut.sheet
        return f"sheet of {told(round(sheet.width_mm, 2), units)} × {told(round(sheet.height_mm, 2), units)}"
    return f"spool of {show(row.cut.spool.length_mm / 1000, 'm', units)}"


def unproven_words(numbers: tuple[str, ...]) -> tuple[str, ...]:
    """What is said before anything of these orders is cut; nothing where all are proven."""
    if not numbers:
        return ()
    whose = "it" if len(numbers) == 1 else "them"
    said = f"{NOT_PROVEN}: {listed(numbers)}. Checks of {whose} fail"
    return (f"{said}; see panewright design before anything is cut.",)


def order_told(number: str, revisions: Mapping[str, str]) -> str:
    """An order with the revision of its design; its number alone where that was not kept.

    >>> order_told("TK-3", {"TK-3": "K7Q2ABCD"}), order_told("TK-3", {})
    ('TK-3 revision K7Q2ABCD', 'TK-3')
    """
    return f"{number} revision {revisions[number]}" if number in revisions else number


def orders_words(orders: Iterable[str], revisions: Mapping[str, str]) -> tuple[str, ...]:
    """All orders that are cut for, each with its revision; nothing where there is none."""
    told_ = ", ".join(order_told(number, revisions) for number in orders)
    return (f"Cut for {told_}.",) if told_ else ()


def list_page(plan: CutSheets) -> Page:
    """The shopping list, and what is taken from the racks."""
    found = taken(plan)
    bought, there = [each for each in found if not each.place], [each for each in found if each.place]
    first = (*unproven_words(plan.unproven), *orders_words(plan.orders, plan.revisions))
    blocks = [Words(in_all(plan), "lead"), *map(Words, first)]
    tables = []
    if bought:
        rows = tuple((each.item, f"{each.number} ×", each.what, *_money(each, plan)) for each in bought)
        tables.append(words_table(("To buy", "Number", "Of which size", "One", "Together"), rows))
    if there:
        rows_there = tuple((each.item, f"{each.number} ×", each.what, each.place) for each in there)
        tables.append(words_table(("Lies there", "Number", "Of which size", "Where"), rows_there))
    return Page("What it takes in all", (*blocks, *tables))


def _money(each: Taken, plan: CutSheets) -> tuple[str, str]:
    if not each.price:
        return "", ""
    return amount(each.price, plan.currency), amount(each.price * each.number, plan.currency)


def in_all(plan: CutSheets) -> str:
    """The sum in a sentence, and what has no price."""
    bought = [each for each in taken(plan) if not each.place]
    if not bought:
        return "Nothing is to buy: all of it lies there."
    total = sum((each.price * each.number for each in bought if each.price), Decimal(0))
    unknown = list(dict.fromkeys(each.item for each in bought if not each.price))
    without = f" without {', '.join(unknown)}, which has no price on the shelf" if unknown else ""
    return f"To buy in all: {amount(total, plan.currency)}{without}." if total else f"To buy,{without}."


def list_lines(plan: CutSheets) -> Iterator[str]:
    """The same for a screen of plain text."""
    yield in_all(plan)
    for each in taken(plan):
        where = f", {each.place}" if each.place else ""
        money = f", {_money(each, plan)[1]}" if each.price else ""
        yield f"  {each.number} × {each.item}: {each.what}{where}{money}"
