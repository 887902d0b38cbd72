"""Panels by their serial."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, Row, select

from panewright.errors import Problem, RecordError
from panewright.ledger.asking import Wanted, all_of, one_of
from panewright.ledger.open import Ledger
from panewright.ledger.tables.orders import DesignRow as Designs
from panewright.ledger.tables.orders import OrderRow as Orders
from panewright.ledger.tables.orders import OrderVersionRow as Versions
from panewright.ledger.tables.serials import SerialRow as Serials
from panewright.ledger.writing import add_all, known, write


@dataclass(frozen=True, slots=True)
class Serial:
    """One panel begun."""

    serial: str
    order: str
    number: int  #: of its order, from 1
    revision: str  #: of the design it was begun by
    by: str
    at: datetime


def open_serials(ledger: Ledger, order: str, *, by: str, at: datetime, tap: str = "") -> tuple[str, ...]:
    """Begin every panel of an order by its newest design; those begun already stay as they are."""

    def work(db: Connection) -> int:
        key = known(db, Orders.number, order, "order")
        newest = _newest_design(db, key)
        begun = set(db.scalars(select(Serials.serial).where(Serials.order_id == key)))
        planned = tuple(json.loads(newest.serials)) if newest else ()
        rows = [
            {"serial": serial, "order_id": key, "design_id": newest.id, "number": number, "who": by, "at": at}
            for number, serial in enumerate(planned, 1)
            if newest and serial not in begun
        ]
        _refuse_impossible(db, order, planned, [row["serial"] for row in rows])
        add_all(db, Serials, rows)
        return key

    write(ledger, work, kind="serials", key=order, at=at, tap=tap)
    return tuple(each.serial for each in serials(ledger, order=order))


def serials(ledger: Ledger, *, order: str = "", begins: str = "", most: int = 200) -> tuple[Serial, ...]:
    """Panels of an order, or whose serial begins so; the newest first where no order is named."""
    wanted = _serials().limit(most)
    if order:
        wanted = wanted.where(Orders.number == order).order_by(Serials.number).limit(None)
    else:
        wanted = wanted.order_by(Serials.id.desc())
    if begins:
        wanted = wanted.where(Serials.serial >= begins, Serials.serial < begins + "\U0010ffff")
    with ledger.reading() as db:
        return all_of(db, wanted, Serial)


def find_serial(ledger: Ledger, serial: str) -> Serial:
    """One panel."""
    with ledger.reading() as db:
        key = known(db, Serials.serial, serial, "serial")
        return one_of(db, _serials().where(Serials.id == key), Serial)


def _newest_design(db: Connection, order_id: int) -> Row[int, str] | None:
    wanted = (
        select(Designs.id, Designs.serials)
        .join(Versions, Designs.order_version_id == Versions.id)
        .where(Versions.order_id == order_id)
        .order_by(Designs.id.desc())
        .limit(1)
    )
    return db.execute(wanted).first()


def _refuse_impossible(db: Connection, order: str, planned: tuple[str, ...], fresh: list[str]) -> None:
    """Nothing is designed yet, or another order's panels bear these serials."""
    if not planned:
        problem = Problem("nothing is designed for it yet.", "Design it first.", key="order", value=order)
        raise RecordError([problem])
    taken = select(Serials.serial, Orders.number).join(Orders, Serials.order_id == Orders.id)
    found = db.execute(taken.where(Serials.serial.in_(fresh))).all()
    if found:
        cure = "Give the order a first serial of its own."
        raise RecordError([_taken(row.serial, row.number, cure) for row in found])


def _taken(serial: str, order: str, cure: str) -> Problem:
    return Problem(f"a panel of order {order} bears it.", cure, key="serial", value=serial)


def _serials() -> Wanted:
    columns = (Serials.serial, Orders.number, Serials.number, Designs.revision, Serials.who, Serials.at)
    return (
        select(*columns)
        .join(Orders, Serials.order_id == Orders.id)
        .join(Designs, Serials.design_id == Designs.id)
    )
