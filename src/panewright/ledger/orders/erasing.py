"""A customer's details erased on request, while the technical record of every panel stays.

This is the one place where rows are changed. Name, address, mail and phone are blanked in every version,
and taken out of the texts of the customer's orders, designs, panels, claims, repairs and notes, and of the
arrays in which their panels lie. A row says that it was done. The database then lets go of the old bytes.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, select, text, update
from sqlalchemy.exc import DBAPIError

from panewright.ledger import guards
from panewright.ledger.kept.copies import copies
from panewright.ledger.open import Ledger
from panewright.ledger.orders import personal
from panewright.ledger.orders.customers import customer_of_order, orders_of
from panewright.ledger.tables.arrays import ArrayLayingRow, ArrayPlaceRow, ArrayRow, ArrayVersionRow
from panewright.ledger.tables.built import BuiltRow, DeviationRow, JointRow, SubstitutionRow
from panewright.ledger.tables.customers import CustomerRow, DetailRow, ErasureRow
from panewright.ledger.tables.deals import DealRow, DealSwapRow, LaidRow
from panewright.ledger.tables.orders import DesignRow, OrderRow, OrderVersionRow
from panewright.ledger.tables.promises import PromiseRow, QuoteSentRow
from panewright.ledger.tables.ratings import FindingRow, RatingRow
from panewright.ledger.tables.readings import AttachedRow, FileRow, ReadingRow
from panewright.ledger.tables.repairs import ClaimRow, RepairRow
from panewright.ledger.tables.serials import SerialRow, StepRow
from panewright.ledger.tables.stock import HoursRow, MovementRow
from panewright.ledger.writing import add, known, write

_TOUCHED = (
    "customer_detail",
    "order_version",
    "design_made",
    "built",
    "joint",
    "substitution",
    "deviation",
    "claim",
    "repair",
    "step_done",
    "reading",
    "stock_movement",
    "hours",
    "attached",
    "file",
    "promise",
    "quote_sent",
    "deal",
    "deal_swap",
    "laid",
    "rating",
    "finding",
    "array_version",
    "array_laying",
)
_FIELDS = ("name", "address", "mail", "phone")
_Text = tuple[Any, Any, Callable[[str, personal.Words], str]]


@dataclass(frozen=True, slots=True)
class Erased:
    """What was done, and what a person should look at: no program reads what stands in a picture."""

    mark: str
    texts: int  #: in which something was taken out
    files: tuple[str, ...]  #: names of the papers of the customer's orders and panels
    numbers: tuple[str, ...]  #: of orders and panels that hold the customer's words; they stay
    arrays: tuple[str, ...]  #: that hold panels of theirs: where they stand is told there, and stays
    copies: tuple[str, ...]  #: of the records, made before, that still hold all
    overwritten: bool  #: whether the database has let go of the old bytes already


def erase_customer(ledger: Ledger, mark: str, *, reason: str, by: str, at: datetime, tap: str = "") -> Erased:
    """Erase a customer's details. Copies made before still hold them."""
    done: list[tuple[int, tuple[str, ...]]] = []

    def work(db: Connection) -> int:
        key = known(db, CustomerRow.mark, mark, "customer")
        said = _words(db, key)
        why = personal.out_of_prose(reason, said) if said else reason
        with guards.off(db):
            done.append((_take_out(db, key, said), _numbers(db, key, said)))
            blank = dict.fromkeys(_FIELDS, "")
            db.execute(update(DetailRow).where(DetailRow.customer_id == key).values(**blank))
        return add(db, ErasureRow, customer_id=key, reason=why, who=by, at=at)

    write(ledger, work, kind="erased", key=mark, at=at, tap=tap)
    overwritten = _overwrite(ledger)
    texts, numbers = done[0] if done else (0, ())  # a tap sent twice does nothing twice
    with ledger.reading() as db:
        key = known(db, CustomerRow.mark, mark, "customer")
        papers, theirs = _papers(db, key), _named(db, _arrays(db, orders_of(db, key)))
    return Erased(mark, texts, papers, numbers, theirs, copies(ledger), overwritten)


def _take_out(db: Connection, key: int, said: personal.Words | None) -> int:
    """Take the customer's words out of every text of their orders and panels; out of how many."""
    if said is None:
        return 0
    orders = orders_of(db, key)
    texts = (*_of_orders(orders), *_of_panels(orders), *_of_arrays(_arrays(db, orders)))
    return sum(_replace(db, each, said) for each in texts)


def _of_orders(orders: list[int]) -> Iterator[_Text]:
    panels = _panels(orders)
    versions = select(OrderVersionRow.id).where(OrderVersionRow.order_id.in_(orders))
    papers = AttachedRow.serial_id.in_(panels) | AttachedRow.order_id.in_(orders)
    yield OrderVersionRow.text, OrderVersionRow.order_id.in_(orders), personal.out_of_document
    for column in (DesignRow.figures, DesignRow.checks):
        yield column, DesignRow.order_version_id.in_(versions), personal.out_of_document
    yield DealRow.text, DealRow.order_id.in_(orders), personal.out_of_deal
    deals = select(DealRow.id).where(DealRow.order_id.in_(orders))
    yield DealSwapRow.reason, DealSwapRow.deal_id.in_(deals), personal.out_of_prose
    yield PromiseRow.note, PromiseRow.order_id.in_(orders), personal.out_of_prose
    yield QuoteSentRow.note, QuoteSentRow.order_version_id.in_(versions), personal.out_of_prose
    yield AttachedRow.title, papers, personal.out_of_prose
    yield FileRow.name, FileRow.id.in_(select(AttachedRow.file_id).where(papers)), personal.out_of_prose
    for table in (MovementRow, HoursRow):
        yield table.note, table.serial_id.in_(panels) | table.order_id.in_(orders), personal.out_of_prose


def _of_panels(orders: list[int]) -> Iterator[_Text]:
    panels = _panels(orders)
    builts = select(BuiltRow.id).where(BuiltRow.serial_id.in_(panels))
    for column in (BuiltRow.figures, BuiltRow.checks):
        yield column, BuiltRow.serial_id.in_(panels), personal.out_of_document
    for column in (RatingRow.text, FindingRow.text):
        yield column, column.class_.serial_id.in_(panels), personal.out_of_document
    for column in (JointRow.note, SubstitutionRow.reason, DeviationRow.places, DeviationRow.note):
        yield column, column.class_.built_id.in_(builts), personal.out_of_prose
    for column in (
        ClaimRow.words,
        RepairRow.words,
        StepRow.note,
        ReadingRow.note,
        LaidRow.reason,
        FindingRow.said,
    ):
        yield column, column.class_.serial_id.in_(panels), personal.out_of_prose


def _of_arrays(arrays: list[int]) -> Iterator[_Text]:
    yield ArrayVersionRow.text, ArrayVersionRow.array_id.in_(arrays), personal.out_of_document
    yield ArrayLayingRow.reason, ArrayLayingRow.array_id.in_(arrays), personal.out_of_prose


def _arrays(db: Connection, orders: list[int]) -> list[int]:
    """The arrays in which panels of these orders ever lay, or whose text names one."""
    lay = select(ArrayLayingRow.array_id).join(ArrayPlaceRow, ArrayPlaceRow.laying_id == ArrayLayingRow.id)
    found = set(db.scalars(lay.where(ArrayPlaceRow.serial_id.in_(_panels(orders))).distinct()))
    serials = [
        f'"{each}"' for each in db.scalars(select(SerialRow.serial).where(SerialRow.id.in_(_panels(orders))))
    ]
    for key, words in db.execute(select(ArrayVersionRow.array_id, ArrayVersionRow.text)):
        if key not in found and any(each in words for each in serials):
            found.add(key)
    return sorted(found)


def _named(db: Connection, arrays: list[int]) -> tuple[str, ...]:
    return tuple(db.scalars(select(ArrayRow.name).where(ArrayRow.id.in_(arrays)).order_by(ArrayRow.id)))


def _panels(orders: list[int]) -> Any:
    return select(SerialRow.id).where(SerialRow.order_id.in_(orders))


def _words(db: Connection, key: int) -> personal.Words | None:
    """The customer's details, and whom the orders that are theirs name."""
    columns = [getattr(DetailRow, field) for field in _FIELDS]
    told = {
        value for row in db.execute(select(*columns).where(DetailRow.customer_id == key)) for value in row
    }
    theirs = [order for order in orders_of(db, key) if customer_of_order(db, order) == key]
    texts = db.scalars(select(OrderVersionRow.text).where(OrderVersionRow.order_id.in_(theirs)))
    return personal.words({*told, *(name for each in texts for name in personal.customers_in(each))})


def _replace(db: Connection, where: _Text, said: personal.Words) -> int:
    column, mine, clean = where
    table, count = column.class_, 0
    for key, before in db.execute(select(table.id, column).where(mine)).all():
        after = clean(before, said)
        if after != before:
            db.execute(update(table).where(table.id == key).values({column.key: after}))
            count += 1
    return count


def _numbers(db: Connection, key: int, said: personal.Words | None) -> tuple[str, ...]:
    """Numbers of orders and panels, and names of arrays, with the customer's words: labels bear them."""
    orders = orders_of(db, key)
    found = [
        *db.scalars(select(OrderRow.number).where(OrderRow.id.in_(orders)).order_by(OrderRow.id)),
        *db.scalars(select(SerialRow.serial).where(SerialRow.order_id.in_(orders)).order_by(SerialRow.id)),
        *_named(db, _arrays(db, orders)),
    ]
    return tuple(each for each in found if said and said.search(each))


def _overwrite(ledger: Ledger) -> bool:
    """The database lets go of the bytes of rows as they were; False where somebody reads them just now."""
    if ledger.engine.dialect.name == "sqlite":
        with ledger.engine.connect() as db:
            raw: Any = db.connection.driver_connection
            try:
                raw.execute("VACUUM")
                busy, *_ = raw.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
            except sqlite3.Error:  # the erasure itself is confirmed
                return False
            return not busy
    try:
        with ledger.engine.connect().execution_options(isolation_level="AUTOCOMMIT") as db:
            for table in _TOUCHED:
                db.execute(text(f"VACUUM FULL {table}"))
    except DBAPIError:
        return False
    return True


def _papers(db: Connection, key: int) -> tuple[str, ...]:
    orders = orders_of(db, key)
    panels = select(SerialRow.id).where(SerialRow.order_id.in_(orders))
    mine = AttachedRow.serial_id.in_(panels) | AttachedRow.order_id.in_(orders)
    wanted = select(FileRow.name).join(AttachedRow, AttachedRow.file_id == FileRow.id).where(mine)
    return tuple(db.scalars(wanted.order_by(FileRow.id)))
