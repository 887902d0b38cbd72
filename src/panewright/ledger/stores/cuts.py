"""Cutting plans kept, their rows ticked as cut, and taken back; the stock moves in the same breath."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Any

from sqlalchemy import Connection, exists, func, select
from sqlalchemy.orm import aliased

from panewright.errors import Problem, RecordError, StaleError
from panewright.ledger.asking import Wanted, all_of, first_of
from panewright.ledger.open import Ledger
from panewright.ledger.stores.stock import (
    SIGN,
    Movement,
    Remnant,
    add_movement,
    add_remnant,
    lay_back,
    take_remnant,
)
from panewright.ledger.tables.columns import plain
from panewright.ledger.tables.cuts import CutDoneRow as Done
from panewright.ledger.tables.cuts import CutPieceRow as Pieces
from panewright.ledger.tables.cuts import CutPlanRow as Plans
from panewright.ledger.tables.lots import LotRow as Lots
from panewright.ledger.tables.orders import OrderRow as Orders
from panewright.ledger.tables.stock import MovementRow as Movements
from panewright.ledger.writing import add, add_all, known, unknown, write

_SAYS = "takes back movement "


@dataclass(frozen=True, slots=True)
class KeptPlan:
    """A plan as it was kept; the text is its own."""

    number: int
    text: str
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class PieceCut:
    """Pieces of one size that were cut for an order; a width for sheets only."""

    order: str
    item: str
    name: str
    length_mm: float
    width_mm: float | None
    count: int


@dataclass(frozen=True, slots=True)
class Cut:
    """One row of a plan as it is cut: what leaves the stock, what comes into the rack, what came of it."""

    pieces: tuple[PieceCut, ...]
    moved: tuple[Movement, ...] = ()
    used: str = ""  #: the mark of the piece of the rack that was cut up
    kept: tuple[Remnant, ...] = ()
    most: tuple[PieceCut, ...] = ()  #: of some kinds, how many may lie cut afterwards, whoever cut them


@dataclass(frozen=True, slots=True)
class RowDone:
    """How a row of a plan stands: the newest that was said of it."""

    row: int
    version: int
    done: bool
    by: str
    at: datetime
    did: str  #: JSON

    @property
    def kept(self) -> tuple[str, ...]:
        """The marks of the rests that lie in the rack since."""
        return tuple(json.loads(self.did).get("kept", ())) if self.done else ()


def keep_plan(ledger: Ledger, text: str, *, by: str, at: datetime, tap: str = "") -> int:
    """Keep a plan; its number."""
    return write(
        ledger, lambda db: add(db, Plans, text=text, who=by, at=at), kind="cut", key="plan", at=at, tap=tap
    )


def find_plan(ledger: Ledger, number: int) -> KeptPlan:
    """A plan by its number."""
    with ledger.reading() as db:
        found = first_of(db, _plans().where(Plans.id == number), KeptPlan)
    if found is None:
        raise unknown("cutting plan", str(number))
    return found


def plans(ledger: Ledger, *, most: int = 12) -> tuple[KeptPlan, ...]:
    """The plans made last, newest first."""
    with ledger.reading() as db:
        return all_of(db, _plans().order_by(Plans.id.desc()).limit(most), KeptPlan)


def rows_done(ledger: Ledger, number: int) -> tuple[RowDone, ...]:
    """How the rows of a plan stand of which anything was said."""
    after = aliased(Done)
    newer = exists().where(after.plan_id == Done.plan_id, after.row == Done.row, after.version > Done.version)
    with ledger.reading() as db:
        return all_of(db, _done().where(Done.plan_id == number, ~newer).order_by(Done.row), RowDone)


def cut(ledger: Ledger, number: int, row: int, what: Cut, *, by: str, at: datetime, tap: str = "") -> None:
    """A row of a plan was cut: all of what it moves, or nothing; `StaleError` where it was cut before."""

    def work(db: Connection) -> int:
        _refuse_other_plan(db, number)
        stands = _stands(db, number, row)
        if stands and stands.done:
            problem = Problem(f"{stands.by} has ticked it already.", "Look at the plan again.", key="row")
            raise StaleError([problem], stands)
        _refuse_cut_meanwhile(db, what)
        did = json.dumps(_wrote(db, what, by=by, at=at), sort_keys=True)
        return _said(db, number, row, stands, what.pieces, done=True, did=did, by=by, at=at)

    write(ledger, work, kind="cut", key=str(number), at=at, tap=tap)


def take_back(ledger: Ledger, number: int, row: int, *, by: str, at: datetime, tap: str = "") -> None:
    """A row that was not cut after all: everything that it moved goes back, by rows of their own."""

    def work(db: Connection) -> int:
        stands = _stands(db, number, row)
        if stands is None or not stands.done:
            problem = Problem("it is not ticked as cut.", "Look at the plan again.", key="row")
            raise RecordError([problem])
        _unwrite(db, json.loads(stands.did), by=by, at=at)
        pieces = _pieces_of(db, number, row, stands.version)
        back = tuple(_counted(each, -each.count) for each in pieces)
        return _said(db, number, row, stands, back, done=False, did="{}", by=by, at=at)

    write(ledger, work, kind="cut", key=str(number), at=at, tap=tap)


def pieces_cut(ledger: Ledger) -> tuple[PieceCut, ...]:
    """All pieces that were cut for orders, added up."""
    with ledger.reading() as db:
        return _all_cut(db)


def _all_cut(db: Connection) -> tuple[PieceCut, ...]:
    kinds = (Orders.number, Pieces.item, Pieces.name, Pieces.length_mm, Pieces.width_mm)
    total = func.sum(Pieces.count)
    wanted = select(*kinds, total).join(Orders, Pieces.order_id == Orders.id)
    found = all_of(db, wanted.group_by(*kinds).having(total != 0), _summed)
    return tuple(sorted(found, key=lambda each: (each.order, each.item, each.name, -each.length_mm)))


def _summed(*row: Any) -> PieceCut:
    order, item, name, length_mm, width_mm, count = row
    return PieceCut(order, item, name, length_mm, width_mm, int(count))


def _plans() -> Wanted:
    return select(Plans.id, Plans.text, Plans.who, Plans.at)


def _done() -> Wanted:
    return select(Done.row, Done.version, Done.done, Done.who, Done.at, Done.did)


def _stands(db: Connection, number: int, row: int) -> RowDone | None:
    wanted = _done().where(Done.plan_id == number, Done.row == row).order_by(Done.version.desc())
    return first_of(db, wanted, RowDone)


def _refuse_cut_meanwhile(db: Connection, what: Cut) -> None:
    """Pieces that another plan has cut since are not cut once more.

    Asked within the write, as two tablets may tick at once.
    """
    lying = {_counted(each, 0): each.count for each in _all_cut(db)} if what.most else {}
    asked: Counter[PieceCut] = Counter()
    for each in what.pieces:
        asked[_counted(each, 0)] += each.count
    for most in what.most:
        kind = _counted(most, 0)
        over = lying.get(kind, 0) + asked[kind] - most.count
        if over > 0:
            reason = f"Another plan has cut {most.name} for {most.order} meanwhile: {over} would be too many."
            raise RecordError([Problem(reason, "Make the plan anew.", key="row")])


def _refuse_other_plan(db: Connection, number: int) -> None:
    if db.scalar(select(Plans.id).where(Plans.id == number)) is None:
        raise unknown("cutting plan", str(number))


def _said(
    db: Connection,
    number: int,
    row: int,
    stands: RowDone | None,
    pieces: tuple[PieceCut, ...],
    **told: Any,
) -> int:
    version = stands.version + 1 if stands else 1
    who = {"who": told["by"], "at": told["at"]}
    key = add(db, Done, plan_id=number, row=row, version=version, done=told["done"], did=told["did"], **who)
    names = ("item", "name", "length_mm", "width_mm", "count")
    add_all(
        db,
        Pieces,
        [
            {"done_id": key, "order_id": known(db, Orders.number, each.order, "order")}
            | {name: getattr(each, name) for name in names}
            for each in pieces
        ],
    )
    return key


def _wrote(db: Connection, what: Cut, *, by: str, at: datetime) -> dict[str, Any]:
    """Everything that a cut moves, written; how to find it again."""
    did: dict[str, Any] = {"moved": [], "used": what.used, "kept": []}
    for movement in what.moved:
        _refuse_short(db, movement)
        amount = SIGN[movement.reason] * movement.amount
        did["moved"].append(add_movement(db, movement, amount, by=by, at=at))
    if what.used:
        take_remnant(db, what.used, state="used", by=by, at=at)
    for rest in what.kept:
        add_remnant(db, rest, by=by, at=at)
        did["kept"].append(rest.mark)
    return did


def _refuse_short(db: Connection, movement: Movement) -> None:
    """Nothing is cut of what is not there: a bar that was bought is written in first."""
    lot = known(db, Lots.mark, movement.lot, "lot") if movement.lot else None
    there = select(func.coalesce(func.sum(Movements.amount), Decimal(0))).where(
        Movements.item == movement.item,
        Movements.unit == movement.unit,
        Movements.lot_id.is_not_distinct_from(lot),
    )
    if (found := db.scalar(there) or Decimal(0)) < movement.amount:
        reason = f"Only {plain(found):f} {movement.unit} of {movement.item} is written down as there."
        cure = "Write in what came, or what you counted, on the shelf."
        raise RecordError([Problem(reason, cure, key="item", value=movement.item)])


def _unwrite(db: Connection, did: Mapping[str, Any], *, by: str, at: datetime) -> None:
    for number in did["moved"]:
        _move_back(db, number, by=by, at=at)
    for mark in did["kept"]:
        take_remnant(db, mark, state="taken back", by=by, at=at)
    if did["used"]:
        lay_back(db, did["used"], by=by, at=at)


def _move_back(db: Connection, number: int, *, by: str, at: datetime) -> None:
    """The movement once more, the other way; nothing where a hand took it back by itself."""
    note = f"{_SAYS}{number}"
    if db.scalar(select(Movements.id).where(Movements.note == note)) is not None:
        return
    names = ("item", "unit", "reason", "lot_id", "serial_id", "order_id", "amount")
    row = db.execute(
        select(*(getattr(Movements, name) for name in names)).where(Movements.id == number)
    ).one()
    same = dict(zip(names, row, strict=True))
    add(db, Movements, **{**same, "amount": -same["amount"]}, note=note, who=by, at=at)


def _pieces_of(db: Connection, number: int, row: int, version: int) -> tuple[PieceCut, ...]:
    columns = (Orders.number, Pieces.item, Pieces.name, Pieces.length_mm, Pieces.width_mm, Pieces.count)
    wanted = (
        select(*columns)
        .join(Orders, Pieces.order_id == Orders.id)
        .join(Done, Pieces.done_id == Done.id)
        .where(Done.plan_id == number, Done.row == row, Done.version == version)
        .order_by(Pieces.id)
    )
    return all_of(db, wanted, PieceCut)


def _counted(piece: PieceCut, count: int) -> PieceCut:
    return PieceCut(piece.order, piece.item, piece.name, piece.length_mm, piece.width_mm, count)
