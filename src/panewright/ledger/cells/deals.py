"""Deals: which cell of a lot goes where in an order's panels, what was changed since, whose panel is which.

A deal stays as it was matched. A cell exchanged is a row of its own, numbered, so that two hands that change
one deal at once do not undo each other.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, select

from panewright.ledger.asking import Wanted, all_of, first_of
from panewright.ledger.open import Ledger
from panewright.ledger.stale import refuse_stale
from panewright.ledger.tables.deals import DealPanelRow as Panels
from panewright.ledger.tables.deals import DealRow as Deals
from panewright.ledger.tables.deals import DealSwapRow as Swaps
from panewright.ledger.tables.lots import LotRow as Lots
from panewright.ledger.tables.orders import OrderRow as Orders
from panewright.ledger.tables.serials import SerialRow as Serials
from panewright.ledger.writing import add, known, unknown, write


@dataclass(frozen=True, slots=True)
class DealHead:
    """A deal without its cells."""

    number: int
    lot: str
    order: str
    said: str
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Exchanged:
    """Another cell at one place; panels and places from 1. `figures` is JSON: what the panel then gives."""

    panel: int
    place: int
    mark_out: str
    mark_in: str
    reason: str = ""
    figures: str = "{}"


@dataclass(frozen=True, slots=True)
class ExchangeKept:
    """The same as it was kept."""

    version: int
    exchanged: Exchanged
    by: str
    at: datetime


def keep_deal(
    ledger: Ledger, lot: str, order: str, text: str, *, said: str, by: str, at: datetime, tap: str = ""
) -> int:
    """Keep a deal; its number."""

    def work(db: Connection) -> int:
        keys = {
            "lot_id": known(db, Lots.mark, lot, "lot"),
            "order_id": known(db, Orders.number, order, "order"),
        }
        return add(db, Deals, said=said, text=text, who=by, at=at, **keys)

    return write(ledger, work, kind="deal", key=lot, at=at, tap=tap)


def deals(ledger: Ledger, *, lot: str = "", order: str = "", most: int = 40) -> tuple[DealHead, ...]:
    """Deals of a lot, or of an order, or all, the latest first."""
    wanted = _heads().where(Lots.mark == lot) if lot else _heads()
    wanted = wanted.where(Orders.number == order) if order else wanted
    wanted = wanted.order_by(Deals.id.desc()).limit(most)
    with ledger.reading() as db:
        return all_of(db, wanted, DealHead)


def find_deal(ledger: Ledger, number: int) -> tuple[DealHead, str]:
    """A deal with its text as it was matched; `RecordError` where there is none."""
    with ledger.reading() as db:
        head = first_of(db, _heads().where(Deals.id == number), DealHead)
        if head is None:
            raise unknown("deal", str(number))
        return head, str(db.scalar(select(Deals.text).where(Deals.id == number)))


def exchange(
    ledger: Ledger, deal: int, what: Exchanged, *, seen: int, by: str, at: datetime, tap: str = ""
) -> int:
    """Another cell at one place; `seen` is how many exchanges were looked at. The number of this one."""
    head, _ = find_deal(ledger, deal)

    def work(db: Connection) -> int:
        last = select(Swaps.version, Swaps.who).where(Swaps.deal_id == deal).order_by(Swaps.version.desc())
        refuse_stale("deal", str(deal), seen=seen, stands=first_of(db, last, _Last))
        values = {name: getattr(what, name) for name in Exchanged.__slots__}
        return add(db, Swaps, deal_id=deal, version=seen + 1, who=by, at=at, **values)

    write(ledger, work, kind="deal", key=head.lot, at=at, tap=tap)
    return seen + 1


@dataclass(frozen=True, slots=True)
class _Last:
    version: int
    by: str


def exchanges(ledger: Ledger, deal: int) -> tuple[ExchangeKept, ...]:
    """What was changed of a deal, the first first."""
    columns = [getattr(Swaps, name) for name in ("version", *Exchanged.__slots__, "who", "at")]
    wanted = select(*columns).where(Swaps.deal_id == deal).order_by(Swaps.version)
    with ledger.reading() as db:
        return all_of(db, wanted, _kept)


def give(ledger: Ledger, deal: int, panel: int, serial: str, *, by: str, at: datetime, tap: str = "") -> None:
    """A panel of a deal is that serial from now on."""
    head, _ = find_deal(ledger, deal)

    def work(db: Connection) -> int:
        key = known(db, Serials.serial, serial, "serial")
        return add(db, Panels, deal_id=deal, panel=panel, serial_id=key, who=by, at=at)

    write(ledger, work, kind="deal", key=head.lot, at=at, tap=tap)


def given(ledger: Ledger, deal: int) -> dict[int, str]:
    """Which serial each panel of a deal is, of those that were told."""
    wanted = select(Panels.panel, Serials.serial).join(Serials, Panels.serial_id == Serials.id)
    with ledger.reading() as db:
        rows = db.execute(wanted.where(Panels.deal_id == deal).order_by(Panels.id)).all()
    return {int(panel): str(serial) for panel, serial in rows}


def _kept(version: int, *rest: object) -> ExchangeKept:
    *fields, by, at = rest
    return ExchangeKept(version, Exchanged(*fields), by, at)  # type: ignore[arg-type]


def _heads() -> Wanted:
    return (
        select(Deals.id, Lots.mark, Orders.number, Deals.said, Deals.who, Deals.at)
        .join(Lots, Deals.lot_id == Lots.id)
        .join(Orders, Deals.order_id == Orders.id)
    )
