"""Goods on order: ordered, come in whole or in parts, or never to come."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from sqlalchemy import Connection, Exists, String, cast, exists, func, literal, select
from sqlalchemy.orm import aliased

from panewright.errors import Problem, RecordError
from panewright.ledger.asking import Wanted, all_of
from panewright.ledger.open import Ledger
from panewright.ledger.stores.stock import Movement, add_movement
from panewright.ledger.stores.taken_back import SAYS
from panewright.ledger.tables.purchases import PurchaseEndRow as Ends
from panewright.ledger.tables.purchases import PurchaseLineRow as Lines
from panewright.ledger.tables.purchases import PurchaseRow as Purchases
from panewright.ledger.tables.purchases import ReceiptRow as Receipts
from panewright.ledger.tables.stock import MovementRow as Movements
from panewright.ledger.writing import add, unknown, write

_PIECES = frozenset({"each", "bar", "cartridge"})  #: units that no part of comes


@dataclass(frozen=True, slots=True)
class Goods:
    """One part to order; the price is of one unit."""

    item: str
    unit: str
    amount: Decimal
    price: Decimal | None = None
    currency: str = ""
    expected: date | None = None


@dataclass(frozen=True, slots=True)
class OnOrder:
    """One line of goods on order, and how much of it is still to come."""

    purchase: str
    line: int  #: from 1
    supplier: str
    day: date  #: on which it was ordered
    goods: Goods
    received: Decimal
    ended: bool  #: nothing more will come

    @property
    def to_come(self) -> Decimal:
        """What has not come and still will."""
        return Decimal(0) if self.ended else max(self.goods.amount - self.received, Decimal(0))


def order_goods(
    ledger: Ledger,
    number: str,
    supplier: str,
    goods: Sequence[Goods],
    *,
    day: date,
    by: str,
    at: datetime,
    note: str = "",
    tap: str = "",
) -> tuple[OnOrder, ...]:
    """Keep what was ordered from a supplier, under a number that was never used before."""
    if not goods:
        raise _wrong("goods", "", "Nothing is ordered.", "Name one part at least.")
    for each in goods:
        if each.amount.is_nan() or each.amount <= 0:
            raise _wrong("amount", str(each.amount), "must be above zero.", "Leave out what is not ordered.")

    def work(db: Connection) -> int:
        if db.scalar(select(Purchases.id).where(Purchases.number == number)) is not None:
            raise _wrong("purchase", number, "is written already.", "Give these goods another number.")
        key = add(db, Purchases, number=number, supplier=supplier, day=day, note=note, who=by, at=at)
        for place, each in enumerate(goods, 1):
            told = {name: getattr(each, name) for name in Goods.__dataclass_fields__}
            add(db, Lines, purchase_id=key, number=place, **told)
        return key

    write(ledger, work, kind="purchase", key=number, at=at, tap=tap)
    return on_order(ledger, purchase=number)


def receive(
    ledger: Ledger,
    number: str,
    line: int,
    amount: Decimal,
    *,
    by: str,
    at: datetime,
    lot: str = "",
    note: str = "",
    tap: str = "",
) -> OnOrder:
    """Goods of a line came in: they are put on the shelf's records in the same breath."""

    def work(db: Connection) -> int:
        stands = _line(db, number, line)
        if amount.is_nan() or amount <= 0:
            raise _wrong("amount", str(amount), "must be above zero.", "Write what came in.")
        if amount > stands.to_come:
            cure = f"{stands.to_come:f} are to come; write what is over as received, outside of this line."
            raise _wrong("amount", f"{amount:f}", "is more than is on order.", cure)
        if amount != stands.to_come:
            _refuse_broken(amount, stands.goods.unit)
        key = _key(db, number, line)
        told = Movement(stands.goods.item, amount, stands.goods.unit, "received", lot=lot, note=note)
        movement = add_movement(db, told, amount, by=by, at=at)
        last = db.scalar(select(func.max(Receipts.version)).where(Receipts.line_id == key)) or 0
        told_so = {"line_id": key, "version": last + 1, "amount": amount, "movement_id": movement}
        return add(db, Receipts, who=by, at=at, **told_so)

    write(ledger, work, kind="receipt", key=f"{number}/{line}", at=at, tap=tap)
    return next(each for each in on_order(ledger, purchase=number) if each.line == line)


def _refuse_broken(amount: Decimal, unit: str) -> None:
    """Pieces come whole."""
    if unit in _PIECES and amount != amount.to_integral_value():
        raise _wrong(
            "amount", f"{amount:f}", f"is no whole number, and this is sold by {unit}.", "Count the pieces."
        )


def end_line(
    ledger: Ledger, number: str, line: int, reason: str, *, by: str, at: datetime, tap: str = ""
) -> None:
    """Nothing more will come of a line; the reason is one that can be read."""
    if not reason.strip():
        raise _wrong("reason", reason, "is empty.", "Say why nothing more will come.")

    def work(db: Connection) -> int:
        stands = _line(db, number, line)
        if stands.ended or stands.to_come == 0:
            cure = "Nothing is to do."
            raise _wrong("line", f"{number}/{line}", "has nothing to come any more.", cure)
        return add(db, Ends, line_id=_key(db, number, line), reason=reason, who=by, at=at)

    write(ledger, work, kind="receipt", key=f"{number}/{line}", at=at, tap=tap)


def on_order(ledger: Ledger, *, purchase: str = "", only_open: bool = False) -> tuple[OnOrder, ...]:
    """Lines of goods on order, the first ordered first; with `only_open` those of which more will come."""
    wanted = _lines()
    if purchase:
        wanted = wanted.where(Purchases.number == purchase)
    with ledger.reading() as db:
        found = all_of(db, wanted, _on_order)
    if purchase and not found:
        raise unknown("purchase", purchase)
    return tuple(each for each in found if each.to_come > 0) if only_open else found


def _lines() -> Wanted:
    """Lines with what came in of each and stayed, and whether it ended."""
    came = func.coalesce(
        select(func.sum(Receipts.amount))
        .where(Receipts.line_id == Lines.id, ~_went_back())
        .correlate(Lines)
        .scalar_subquery(),
        Decimal(0),
    )
    head = (Purchases.number, Lines.number, Purchases.supplier, Purchases.day)
    goods = (Lines.item, Lines.unit, Lines.amount, Lines.price, Lines.currency, Lines.expected)
    return (
        select(*head, *goods, came, Ends.id)
        .join(Purchases, Lines.purchase_id == Purchases.id)
        .outerjoin(Ends, Ends.line_id == Lines.id)
        .order_by(Purchases.id, Lines.number)
    )


def _went_back() -> Exists:
    """Whether the movement of a receipt was taken back: its goods are on order again."""
    after = aliased(Movements)
    says = literal(SAYS).concat(cast(Receipts.movement_id, String))
    return exists().where(after.item == Lines.item, after.id > Receipts.movement_id, after.note == says)


def last_came(ledger: Ledger, number: str, line: int) -> int:
    """The movement of what came in last of a line and stayed; `RecordError` where nothing did."""
    wanted = (
        select(Receipts.movement_id)
        .join(Lines, Receipts.line_id == Lines.id)
        .join(Purchases, Lines.purchase_id == Purchases.id)
        .where(Purchases.number == number, Lines.number == line, ~_went_back().correlate(Receipts, Lines))
        .order_by(Receipts.id.desc())
    )
    with ledger.reading() as db:
        _line(db, number, line)
        found = db.scalars(wanted).first()
    if found is None:
        raise _wrong("line", f"{number}/{line}", "has nothing that came in.", "Nothing is to take back.")
    return found


def _on_order(*row: Any) -> OnOrder:
    number, line, supplier, day, *goods, came, ended = row
    return OnOrder(number, line, supplier, day, Goods(*goods), came, ended is not None)


def _line(db: Connection, number: str, line: int) -> OnOrder:
    wanted = _lines().where(Purchases.number == number, Lines.number == line)
    found = all_of(db, wanted, _on_order)
    if not found:
        raise unknown("line", f"{number}/{line}")
    return found[0]


def _key(db: Connection, number: str, line: int) -> int:
    wanted = select(Lines.id).join(Purchases, Lines.purchase_id == Purchases.id)
    return db.scalars(wanted.where(Purchases.number == number, Lines.number == line)).one()


def _wrong(key: str, value: str, reason: str, cure: str) -> RecordError:
    return RecordError([Problem(reason, cure, key=key, value=value)])
