"""A row of a cutting plan ticked: what leaves the stock, and what goes back into the rack with its mark."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from decimal import Decimal
from typing import TYPE_CHECKING

from panewright.desk.stores.cut_rows import Row
from panewright.desk.stores.cutting import Kept, kept, known
from panewright.desk.stores.racks import BOUGHT, Source
from panewright.errors import Problem, RecordError
from panewright.price.buying.cuts_together import Known

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.ledger.open import Ledger
    from panewright.ledger.stores.cuts import Cut, PieceCut
    from panewright.ledger.stores.stock import Movement, Remnant

_TINY = Decimal("0.000001")


def tick(ledger: Ledger, number: int, row: int, who: Who) -> tuple[Remnant, ...]:
    """A row was cut: what goes back into the rack, each with the mark to write on it."""
    from panewright.ledger.stores.cuts import cut

    found = kept(ledger, number)
    what = _cut_of(ledger, found, _row(found, row))
    cut(ledger, number, row, what, by=who.by, at=who.at, tap=who.tap)
    return what.kept


def untick(ledger: Ledger, number: int, row: int, who: Who) -> None:
    """A row was not cut after all."""
    from panewright.ledger.stores.cuts import take_back

    take_back(ledger, number, row, by=who.by, at=who.at, tap=who.tap)


def _most(found: Kept, row: Row) -> Iterator[PieceCut]:
    """How many of each may lie cut with a row's own: those before the plan was made, and all of the plan."""
    from panewright.ledger.stores.cuts import PieceCut

    if found.plan.counted is None:
        return
    before, whole = dict(found.plan.counted), _counts(found.rows)
    for key in _counts([row]):
        order, item, name, length_mm, width_mm = key
        count = before.get(key, 0) + whole[key]
        yield PieceCut(order, item, name, length_mm, width_mm or None, count)


def _counts(rows: Iterable[Row]) -> Counter[Known]:
    """Pieces of some rows, by all that tells them apart."""
    counts: Counter[Known] = Counter()
    for each in (piece for row in rows for piece in row.pieces):
        for key, number in known((each,)).items():
            counts[key] += number
    return counts


def _row(found: Kept, number: int) -> Row:
    for each in found.rows:
        if each.number == number:
            return each
    raise RecordError([Problem("The plan has no such row.", "Look at the plan again.", key="row")])


def _cut_of(ledger: Ledger, found: Kept, row: Row) -> Cut:
    from panewright.ledger.stores.cuts import Cut

    moved, rests, most = _moved(ledger, row), _marked(found, row), _most(found, row)
    return Cut(row.pieces, tuple(moved), row.source.mark, tuple(rests), tuple(most))


def marks(found: Kept, row: Row) -> tuple[str, ...]:
    """What is written on the rests of a row: of which plan and row they are."""
    stands = found.done.get(row.number)
    if stands and stands.done:
        return stands.kept
    again = f".{stands.version + 1}" if stands else ""
    letters = ("", *"bcdefghijklmnopqrstuvwxyz")
    return tuple(f"C{found.number}-{row.number}{letters[n]}{again}" for n in range(len(row.rests)))


def _marked(found: Kept, row: Row) -> Iterator[Remnant]:
    from panewright.ledger.stores.stock import Remnant

    for mark, (length_mm, width_mm) in zip(marks(found, row), row.rests, strict=True):
        yield Remnant(mark, row.source.item, length_mm, width_mm, row.source.lot)


def _moved(ledger: Ledger, row: Row) -> Iterator[Movement]:
    """What leaves the stock: one bar, or so many metres."""
    from panewright.ledger.stores.stock import Movement

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
    from panewright.ledger.stores.stock import stock

    if source.key != BOUGHT:
        return source.unit, source.lot
    there = [
        each for each in stock(ledger, item=source.item) if each.unit in ("bar", "bars") and each.amount >= 1
    ]
    return (there[0].unit, there[0].lot) if there else (source.unit, "")
