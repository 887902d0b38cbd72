"""What lies in the shop to be cut, out of the records; lengths and prices off the shelf."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING, Literal

from panewright.desk.own_shelf import own_shelf

if TYPE_CHECKING:
    from panewright.cutting.bars.stock import Bar
    from panewright.cutting.sheets.sheet import Sheet
    from panewright.ledger.open import Ledger
    from panewright.ledger.stores.stock import Remnant, Stock
    from panewright.price.buying.cuts_together import Racks
    from panewright.ribbon.strip import Strip
    from panewright.shelf.shelf import Row, Shelf

_BARS, _METRES = ("bar", "bars"), ("metre", "metres", "m")
_FREE = Decimal(0)  #: what lies there costs nothing more
_CENT = Decimal("0.01")
BOUGHT = "to buy"


@dataclass(frozen=True, slots=True)
class Source:
    """Something to cut from; its key names it in a plan."""

    key: str
    form: Literal["bar", "sheet", "spool"]
    item: str
    length_mm: float
    width_mm: float | None = None
    have: int = 1
    unit: str = ""  #: of the stock it is taken from; '' for a piece left over
    lot: str = ""
    mark: str = ""  #: of a piece left over
    begun: bool = False  #: one end, or the edges, are cut already


def sources(ledger: Ledger) -> tuple[Source, ...]:
    """Everything that lies in the shop and can be cut."""
    from panewright.ledger.stores.stock import remnants, stock

    shelf = own_shelf()
    there = (_stocked(each, shelf, ledger) for each in stock(ledger))
    pieces = (_left_over(each, shelf) for each in remnants(ledger))
    found = [each for each in (*there, *pieces) if each]
    return tuple(sorted(found, key=lambda each: (each.form, each.item, bool(each.mark), each.key)))


def _stocked(each: Stock, shelf: Shelf, ledger: Ledger) -> Source | None:
    """Bars by the bar, ribbon by the metre; a lot of ribbon is a spool."""
    rail = next((row.part for row in shelf.rails if row.name == each.item), None)
    lot = f", lot {each.lot}" if each.lot else ""
    if rail and each.unit in _BARS and each.amount >= 1:
        key = f"from stock{lot}"
        return Source(
            key, "bar", each.item, rail.bar_mm, None, int(each.amount), unit=each.unit, lot=each.lot
        )
    ribbon = any(row.name == each.item for row in (*shelf.tabs, *shelf.buses))
    if ribbon and each.unit in _METRES and each.amount > 0:
        begun = _drawn_from(ledger, each)
        long_mm = float(each.amount * 1000)
        return Source(f"spool{lot}", "spool", each.item, long_mm, unit=each.unit, lot=each.lot, begun=begun)
    return None


def _drawn_from(ledger: Ledger, spool: Stock) -> bool:
    """Whether ribbon was cut off that spool before, so that its start is clean."""
    from panewright.ledger.stores.stock import movements

    return any(
        each.movement.lot == spool.lot and each.movement.reason == "used"
        for each in movements(ledger, item=spool.item)
    )


def _left_over(each: Remnant, shelf: Shelf) -> Source | None:
    """A piece of the rack; a whole sheet, of a size that glass shops keep, has its edges as delivered."""
    from panewright.structure.panes.cut_glass import HEATED

    key = f"piece {each.mark}"
    if each.width_mm is not None:
        heated = any(row.name == each.item and row.part.treatment in HEATED for row in shelf.sheets)
        sides = max(each.length_mm, each.width_mm), min(each.length_mm, each.width_mm)
        begun = sides not in shelf.stock_glass_mm
        size_mm = (each.length_mm, each.width_mm)
        return None if heated else Source(key, "sheet", each.item, *size_mm, mark=each.mark, begun=begun)
    form: Literal["bar", "spool"] = (
        "spool" if any(row.name == each.item for row in (*shelf.tabs, *shelf.buses)) else "bar"
    )
    return Source(key, form, each.item, each.length_mm, mark=each.mark, begun=True)


def racks(
    found: Iterable[Source], shelf: Shelf, *, buys: bool, whole: Collection[str] = frozenset()
) -> Racks:
    """The same as the cutting rooms take it; with `buys`, what is sold is added at its price.

    `whole` are the panes that are cut from whole sheets, also where none lies in the racks.
    """
    from panewright.cutting.bars.stock import Bar
    from panewright.cutting.sheets.sheet import Sheet
    from panewright.price.buying.cuts_together import Racks

    rails: dict[str, list[Bar]] = {row.name: [] for row in shelf.rails}
    ribbons: dict[str, list[Bar]] = defaultdict(list)
    panes: dict[str, list[Sheet]] = defaultdict(list)
    for each in found:
        if each.form == "sheet":
            size_mm = (each.length_mm, each.width_mm or each.length_mm)
            panes[each.item].append(Sheet(*size_mm, _FREE, each.have, each.key, remnant=each.begun))
        else:
            bar = Bar(each.length_mm, _FREE, each.have, each.key, remnant=each.begun)
            (rails if each.form == "bar" else ribbons).setdefault(each.item, []).append(bar)
    if buys:
        for row in shelf.rails:
            rails[row.name].append(Bar(row.part.bar_mm, row.price, None, BOUGHT))
        for name in {*panes, *whole}:
            panes[name] += _sheets_sold(name, shelf)
        for strip in (*shelf.tabs, *shelf.buses):
            ribbons[strip.name] += _spools_sold(strip)
    return Racks(rails, {name: there for name, there in panes.items() if there}, ribbons)


def _sheets_sold(name: str, shelf: Shelf) -> Iterator[Sheet]:
    """Whole sheets in the sizes that shops keep, at the price of their area; none that burst when cut."""
    from panewright.cutting.sheets.sheet import Sheet
    from panewright.structure.panes.cut_glass import HEATED

    for row in shelf.sheets:
        if row.name == name and row.part.treatment not in HEATED and row.sold_by == "square metre":
            for long_mm, short_mm in shelf.stock_glass_mm:
                area_m2 = Decimal(str(long_mm)) * Decimal(str(short_mm)) / 1_000_000
                price = (row.price * area_m2).quantize(_CENT, ROUND_HALF_UP)
                yield Sheet(long_mm, short_mm, price, None, BOUGHT)


def _spools_sold(row: Row[Strip]) -> Iterator[Bar]:
    """A spool as it is packed."""
    from panewright.cutting.bars.stock import Bar

    if row.pack and row.sold_by == "metre":
        yield Bar(float(row.pack * 1000), row.price * row.pack, None, BOUGHT)


def bought(item: str, shelf: Shelf) -> Iterator[Source]:
    """The bar as it is sold, as something to cut from."""
    for row in shelf.rails:
        if row.name == item:
            yield Source(BOUGHT, "bar", item, row.part.bar_mm, unit="bar")
