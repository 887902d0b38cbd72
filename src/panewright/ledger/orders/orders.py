"""Orders as they were saved, version by version."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from sqlalchemy import Connection, Exists, exists, func, or_, select
from sqlalchemy.orm import aliased

from panewright.ledger.asking import Wanted, all_of, first_of, one_of
from panewright.ledger.open import Ledger
from panewright.ledger.stale import refuse_stale
from panewright.ledger.tables.orders import OrderRow as Orders
from panewright.ledger.tables.orders import OrderVersionRow as Versions
from panewright.ledger.tables.promises import PromiseRow as Promises
from panewright.ledger.tables.serials import SerialRow as Serials
from panewright.ledger.writing import add, unknown, write

Which = Literal["all", "open", "closed"]
CLOSED = ("delivered", "called off")  #: how an order stands of which nothing more is to do


@dataclass(frozen=True, slots=True)
class OrderVersion:
    """An order's text as somebody saved it."""

    number: str
    version: int  #: from 1
    text: str
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class OrderRow:
    """A line of the list of orders."""

    number: str
    version: int
    serials: int  #: panels begun
    by: str
    at: datetime


def save_order(
    ledger: Ledger, number: str, text: str, *, seen: int, by: str, at: datetime, tap: str = ""
) -> OrderVersion:
    """Save an order's text as its next version.

    `seen` is the version that the person looked at, 0 for a new order; `StaleError` with what stands now
    where somebody else saved in the meantime.
    """

    def work(db: Connection) -> int:
        stands = first_of(db, _versions().where(Orders.number == number), OrderVersion)
        refuse_stale("order", number, seen=seen, stands=stands)
        order = db.scalar(select(Orders.id).where(Orders.number == number))
        order = order or add(db, Orders, number=number, who=by, at=at)
        return add(db, Versions, order_id=order, version=seen + 1, text=text, who=by, at=at)

    row = write(ledger, work, kind="order", key=number, at=at, tap=tap)
    with ledger.reading() as db:
        return one_of(db, _versions().where(Versions.id == row), OrderVersion)


def find_order(ledger: Ledger, number: str) -> OrderVersion:
    """The newest version of an order."""
    with ledger.reading() as db:
        found = first_of(db, _versions().where(Orders.number == number), OrderVersion)
    if found is None:
        raise unknown("order", number)
    return found


def versions(ledger: Ledger, number: str) -> tuple[OrderVersion, ...]:
    """Every version of an order, oldest first."""
    with ledger.reading() as db:
        found = all_of(db, _versions().where(Orders.number == number), OrderVersion)
    if not found:
        raise unknown("order", number)
    return found[::-1]


def orders(
    ledger: Ledger, *, most: int = 200, skip: int = 0, which: Which = "all", find: str = ""
) -> tuple[OrderRow, ...]:
    """The orders saved last, newest first: all, those still open, or those that are closed.

    An order is closed once it is delivered or called off. `find` is in its number, or anywhere in its
    text, remarks too.
    """
    after = aliased(Versions)
    newer = exists().where(after.order_id == Versions.order_id, after.version > Versions.version)
    begun = (
        select(func.count(Serials.id))
        .where(Serials.order_id == Orders.id)
        .correlate(Orders)
        .scalar_subquery()
    )
    wanted = (
        select(Orders.number, Versions.version, begun, Versions.who, Versions.at)
        .join(Versions, Versions.order_id == Orders.id)
        .where(~newer)
        .order_by(Versions.id.desc())
        .limit(most)
        .offset(skip)
    )
    if which != "all":
        wanted = wanted.where(closed() if which == "closed" else ~closed())
    if find:
        wanted = wanted.where(
            or_(
                Orders.number.icontains(find, autoescape=True), Versions.text.icontains(find, autoescape=True)
            )
        )
    with ledger.reading() as db:
        return all_of(db, wanted, OrderRow)


def closed() -> Exists:
    """Whether the last that was said of an order closes it."""
    after = aliased(Promises)
    newer = exists().where(after.order_id == Promises.order_id, after.version > Promises.version)
    return exists().where(Promises.order_id == Orders.id, Promises.state.in_(CLOSED), ~newer)


def numbers(ledger: Ledger) -> frozenset[str]:
    """The numbers of all orders."""
    with ledger.reading() as db:
        return frozenset(db.scalars(select(Orders.number)))


def _versions() -> Wanted:
    """Versions with their order's number, newest first."""
    return (
        select(Orders.number, Versions.version, Versions.text, Versions.who, Versions.at)
        .join(Orders, Versions.order_id == Orders.id)
        .order_by(Versions.version.desc())
    )
