"""What is there: everything that came in or went out, added up; and pieces left over."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Any

from sqlalchemy import Connection, exists, func, select
from sqlalchemy.orm import aliased

from panewright.errors import Problem, RecordError, StaleError
from panewright.ledger.asking import Wanted, all_of
from panewright.ledger.open import Ledger
from panewright.ledger.tables.lots import LotRow as Lots
from panewright.ledger.tables.orders import OrderRow as Orders
from panewright.ledger.tables.serials import SerialRow as Serials
from panewright.ledger.tables.stock import MovementRow as Movements
from panewright.ledger.tables.stock import RemnantRow as Remnants
from panewright.ledger.tables.stock import RemnantStateRow as States
from panewright.ledger.writing import add, known, write

#: what each reason does to the stock; a count may go either way
SIGN = {"received": 1, "returned": 1, "used": -1, "broken": -1, "wasted": -1, "sold": -1, "counted": 0}
THERE = "there"  #: the state of a piece that lies in the rack again


@dataclass(frozen=True, slots=True)
class Movement:
    """So much of an item came in or went out. The amount is above zero; the reason says which way."""

    item: str
    amount: Decimal
    unit: str
    reason: str
    lot: str = ""
    serial: str = ""
    order: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Moved:
    """A movement as it is kept; below zero where it went out."""

    movement: Movement
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Stock:
    """How much of an item is there, lot by lot; below zero where more went out than ever came in."""

    item: str
    unit: str
    lot: str
    amount: Decimal


@dataclass(frozen=True, slots=True)
class Remnant:
    """A piece left over; `width_mm` for sheets."""

    mark: str
    item: str
    length_mm: float
    width_mm: float | None = None
    lot: str = ""


def move(ledger: Ledger, movement: Movement, *, by: str, at: datetime, tap: str = "") -> None:
    """Keep that something came in or went out."""
    sign = SIGN.get(movement.reason, 0)
    if sign == 0:
        words = ", ".join(reason for reason, way in SIGN.items() if way)
        raise _wrong("reason", movement.reason, "is no way in or out.", f"Write one of {words}.")
    if movement.amount.is_nan() or movement.amount <= 0:
        raise _wrong("amount", str(movement.amount), "must be above zero.", "The reason says which way.")

    def work(db: Connection) -> int:
        return add_movement(db, movement, sign * movement.amount, by=by, at=at)

    write(ledger, work, kind="stock", key=movement.item, at=at, tap=tap)


def count(
    ledger: Ledger,
    item: str,
    unit: str,
    amount: Decimal,
    *,
    by: str,
    at: datetime,
    lot: str = "",
    tap: str = "",
) -> Decimal:
    """Keep what was counted on the shelf; by how much the records were wrong."""

    def work(db: Connection) -> int:
        key = known(db, Lots.mark, lot, "lot") if lot else None
        there = select(func.coalesce(func.sum(Movements.amount), Decimal(0)))
        there = there.where(
            Movements.item == item, Movements.unit == unit, Movements.lot_id.is_not_distinct_from(key)
        )
        wrong = amount - (db.scalar(there) or Decimal(0))
        return add_movement(db, Movement(item, amount, unit, "counted", lot=lot), wrong, by=by, at=at)

    row = write(ledger, work, kind="stock", key=item, at=at, tap=tap)
    with ledger.reading() as db:
        return db.scalars(select(Movements.amount).where(Movements.id == row)).one()


def stock(ledger: Ledger, *, item: str = "") -> tuple[Stock, ...]:
    """What is there, item by item and lot by lot; what is used up is not shown."""
    total = func.sum(Movements.amount)
    sums = select(Movements.item, Movements.unit, Movements.lot_id, total.label("amount"))
    sums = sums.where(Movements.item == item) if item else sums
    sums = sums.group_by(Movements.item, Movements.unit, Movements.lot_id).having(total != Decimal(0))
    there = sums.subquery()
    told = (there.c.item, there.c.unit, func.coalesce(Lots.mark, ""), there.c.amount)
    with ledger.reading() as db:
        found = all_of(db, select(*told).outerjoin(Lots, Lots.id == there.c.lot_id), Stock)
    return tuple(sorted(found, key=lambda each: (each.item, each.unit, each.lot)))


def movements(ledger: Ledger, *, serial: str = "", item: str = "", most: int = 200) -> tuple[Moved, ...]:
    """What came in and went out, of a panel or of an item, newest first."""
    with ledger.reading() as db:
        wanted = _movements().order_by(Movements.id.desc()).limit(most)
        if serial:
            wanted = wanted.where(Movements.serial_id == known(db, Serials.serial, serial, "serial"))
        return all_of(db, wanted.where(Movements.item == item) if item else wanted, moved_of)


def keep_remnant(ledger: Ledger, remnant: Remnant, *, by: str, at: datetime, tap: str = "") -> None:
    """Keep a piece for later."""

    def work(db: Connection) -> int:
        return add_remnant(db, remnant, by=by, at=at)

    write(ledger, work, kind="remnant", key=remnant.mark, at=at, tap=tap)


def use_remnant(
    ledger: Ledger, mark: str, *, by: str, at: datetime, serial: str = "", state: str = "used", tap: str = ""
) -> None:
    """A piece is cut up for a panel, or thrown away; `StaleError` where somebody else took it."""

    def work(db: Connection) -> int:
        panel = known(db, Serials.serial, serial, "serial") if serial else None
        return take_remnant(db, mark, state=state, panel=panel, by=by, at=at)

    write(ledger, work, kind="remnant", key=mark, at=at, tap=tap)


def add_remnant(db: Connection, remnant: Remnant, *, by: str, at: datetime) -> int:
    """A piece for later, within a transaction of the caller's; its id."""
    _refuse_mark(db, remnant.mark)
    lot = known(db, Lots.mark, remnant.lot, "lot") if remnant.lot else None
    told = {"mark": remnant.mark, "item": remnant.item, "length_mm": remnant.length_mm}
    return add(db, Remnants, width_mm=remnant.width_mm, lot_id=lot, who=by, at=at, **told)


def _refuse_mark(db: Connection, mark: str) -> None:
    """Two pieces of one mark cannot be told apart on the rack."""
    item = db.scalar(select(Remnants.item).where(Remnants.mark == mark))
    if item is not None:
        reason, cure = f"A piece of {item} bears this mark.", "Give this one another mark."
        raise RecordError([Problem(reason, cure, key="mark", value=mark)])


def take_remnant(
    db: Connection, mark: str, *, state: str, by: str, at: datetime, panel: int | None = None
) -> int:
    """A piece that is there is gone, within a transaction of the caller's; `StaleError` where it is not."""
    key = known(db, Remnants.mark, mark, "remnant")
    stands = _state(db, key)
    if stands and stands.state != THERE:
        reason = f"{stands.who} has it down as {stands.state}."
        raise StaleError([Problem(reason, "Take another piece.", key="remnant", value=mark)], stands.state)
    version = stands.version + 1 if stands else 1
    return add(db, States, remnant_id=key, version=version, state=state, serial_id=panel, who=by, at=at)


def lay_back(db: Connection, mark: str, *, by: str, at: datetime) -> int:
    """A piece that was gone lies there again, within a transaction of the caller's."""
    key = known(db, Remnants.mark, mark, "remnant")
    stands = _state(db, key)
    version = stands.version + 1 if stands else 1
    return add(db, States, remnant_id=key, version=version, state=THERE, serial_id=None, who=by, at=at)


def _state(db: Connection, key: int) -> Any:
    """The newest that was said of a piece; None where it only lies there."""
    wanted = select(States.state, States.who, States.version).where(States.remnant_id == key)
    return db.execute(wanted.order_by(States.version.desc()).limit(1)).first()


def remnants(ledger: Ledger, *, item: str = "") -> tuple[Remnant, ...]:
    """The pieces that are there, shortest first."""
    columns = (
        Remnants.mark,
        Remnants.item,
        Remnants.length_mm,
        Remnants.width_mm,
        func.coalesce(Lots.mark, ""),
    )
    after = aliased(States)
    newer = exists().where(after.remnant_id == States.remnant_id, after.version > States.version)
    gone = exists().where(States.remnant_id == Remnants.id, States.state != THERE, ~newer)
    wanted = (
        select(*columns)
        .outerjoin(Lots, Remnants.lot_id == Lots.id)
        .where(~gone)
        .order_by(Remnants.length_mm, Remnants.id)
    )
    with ledger.reading() as db:
        return all_of(db, wanted.where(Remnants.item == item) if item else wanted, Remnant)


def add_movement(db: Connection, movement: Movement, amount: Decimal, *, by: str, at: datetime) -> int:
    """One movement within a transaction of the caller's; its id. The amount is below zero on the way out."""
    keys = {
        "lot_id": known(db, Lots.mark, movement.lot, "lot") if movement.lot else None,
        "serial_id": known(db, Serials.serial, movement.serial, "serial") if movement.serial else None,
        "order_id": known(db, Orders.number, movement.order, "order") if movement.order else None,
    }
    told = {name: getattr(movement, name) for name in ("item", "unit", "reason", "note")}
    return add(db, Movements, amount=amount, who=by, at=at, **told, **keys)


def _movements() -> Wanted:
    """Rows of movements, as `moved_of` reads them."""
    return moved_with()


def moved_with(*first: Any) -> Wanted:
    """The same with further columns before."""
    about = (
        func.coalesce(Lots.mark, ""),
        func.coalesce(Serials.serial, ""),
        func.coalesce(Orders.number, ""),
    )
    told = (Movements.item, Movements.amount, Movements.unit, Movements.reason, *about, Movements.note)
    return (
        select(*first, *told, Movements.who, Movements.at)
        .outerjoin(Lots, Movements.lot_id == Lots.id)
        .outerjoin(Serials, Movements.serial_id == Serials.id)
        .outerjoin(Orders, Movements.order_id == Orders.id)
    )


def moved_of(*row: object) -> Moved:
    """A movement out of its row."""
    *told, by, at = row
    return Moved(Movement(*told), by, at)  # type: ignore[arg-type]


def _wrong(key: str, value: str, reason: str, cure: str) -> RecordError:
    return RecordError([Problem(reason, cure, key=key, value=value)])
