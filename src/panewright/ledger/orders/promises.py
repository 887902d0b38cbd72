"""Where an order stands, which day was promised, and which quotes went out."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from sqlalchemy import Connection, exists, select
from sqlalchemy.orm import aliased

from panewright.errors import Problem, RecordError
from panewright.ledger.asking import Wanted, all_of, first_of
from panewright.ledger.open import Ledger
from panewright.ledger.stale import refuse_stale
from panewright.ledger.tables.orders import OrderRow as Orders
from panewright.ledger.tables.orders import OrderVersionRow as Versions
from panewright.ledger.tables.promises import PromiseRow as Promises
from panewright.ledger.tables.promises import QuoteSentRow as Quotes
from panewright.ledger.writing import add, known, unknown, write

STATES = ("accepted", "delivered", "called off")


@dataclass(frozen=True, slots=True)
class Promise:
    """Where an order stands."""

    order: str
    version: int
    state: str
    promised: date | None
    note: str
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class QuoteSent:
    """A quote as it went out."""

    order: str
    order_version: int
    revision: str
    day: date
    until: date
    total: Decimal
    currency: str
    note: str = ""


def promise(
    ledger: Ledger,
    order: str,
    state: str,
    promised: date | None = None,
    *,
    seen: int,
    by: str,
    at: datetime,
    note: str = "",
    tap: str = "",
) -> Promise:
    """Keep where an order stands now; `seen` is the version looked at, 0 where there was none."""
    if state not in STATES:
        cure = f"Write one of {', '.join(STATES)}."
        raise RecordError([Problem("no order can stand so.", cure, key="state", value=state)])

    def work(db: Connection) -> int:
        stands = first_of(db, _newest().where(Orders.number == order), Promise)
        refuse_stale("promise", order, seen=seen, stands=stands)
        key = known(db, Orders.number, order, "order")
        told = {"state": state, "promised": promised, "note": note}
        return add(db, Promises, order_id=key, version=seen + 1, who=by, at=at, **told)

    write(ledger, work, kind="promise", key=order, at=at, tap=tap)
    return _known(promise_of(ledger, order), order)


def promise_of(ledger: Ledger, order: str) -> Promise | None:
    """Where an order stands; None where nothing was promised."""
    with ledger.reading() as db:
        known(db, Orders.number, order, "order")
        return first_of(db, _newest().where(Orders.number == order), Promise)


def promises(ledger: Ledger, *, state: str = "accepted") -> tuple[Promise, ...]:
    """Orders that stand so, the earliest promise first, those without a day last."""
    with ledger.reading() as db:
        found = all_of(db, _newest().where(Promises.state == state), Promise)
    return tuple(sorted(found, key=lambda each: (each.promised or date.max, each.order)))


def keep_quote(ledger: Ledger, sent: QuoteSent, *, by: str, at: datetime, tap: str = "") -> int:
    """Keep that a quote went out; its number."""

    def work(db: Connection) -> int:
        asked = select(Versions.id).join(Orders, Versions.order_id == Orders.id)
        version = db.scalar(asked.where(Orders.number == sent.order, Versions.version == sent.order_version))
        if version is None:
            raise unknown("order", f"{sent.order}, version {sent.order_version}")
        names = ("revision", "day", "until", "total", "currency", "note")
        told = {name: getattr(sent, name) for name in names}
        return add(db, Quotes, order_version_id=version, who=by, at=at, **told)

    return write(ledger, work, kind="quote", key=sent.order, at=at, tap=tap)


def quotes_sent(ledger: Ledger, order: str) -> tuple[QuoteSent, ...]:
    """Every quote of an order, the first sent first."""
    columns = (Quotes.revision, Quotes.day, Quotes.until, Quotes.total, Quotes.currency, Quotes.note)
    wanted = (
        select(Orders.number, Versions.version, *columns)
        .join(Versions, Quotes.order_version_id == Versions.id)
        .join(Orders, Versions.order_id == Orders.id)
        .where(Orders.number == order)
        .order_by(Quotes.id)
    )
    with ledger.reading() as db:
        known(db, Orders.number, order, "order")
        return all_of(db, wanted, QuoteSent)


def _newest() -> Wanted:
    """The last that was said of each order."""
    after = aliased(Promises)
    newer = exists().where(after.order_id == Promises.order_id, after.version > Promises.version)
    columns = (Promises.version, Promises.state, Promises.promised, Promises.note, Promises.who, Promises.at)
    return (
        select(Orders.number, *columns)
        .join(Orders, Promises.order_id == Orders.id)
        .where(~newer)
        .order_by(Promises.id)
    )


def _known(found: Promise | None, order: str) -> Promise:
    if found is None:
        raise unknown("promise", order)
    return found
