"""Cells as they are laid: which one lies where in each panel, and what became of those before it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, exists, func, select
from sqlalchemy.orm import aliased

from panewright.errors import Problem, RecordError
from panewright.ledger.asking import Wanted, all_of
from panewright.ledger.open import Ledger
from panewright.ledger.tables.built import BuiltRow as Builts
from panewright.ledger.tables.built import SeatRow as Seats
from panewright.ledger.tables.deals import DealRow as Deals
from panewright.ledger.tables.deals import DealSwapRow as Swaps
from panewright.ledger.tables.deals import LaidRow as Rows
from panewright.ledger.tables.lots import CellRow as Cells
from panewright.ledger.tables.lots import LotRow as Lots
from panewright.ledger.tables.serials import SerialRow as Serials
from panewright.ledger.writing import add, known, write

WHATS = ("laid", "lifted", "broken")


@dataclass(frozen=True, slots=True)
class Laying:
    """A cell of a lot laid at a place, lifted from it, or broken there."""

    place: int  #: as the drawings number it
    lot: str
    cell: str
    what: str = "laid"  #: of WHATS
    reason: str = ""
    deal: int | None = None


@dataclass(frozen=True, slots=True)
class Laid:
    """The same as it was told."""

    serial: str
    place: int
    lot: str
    cell: str
    what: str
    reason: str
    by: str
    at: datetime


def lay(ledger: Ledger, serial: str, what: Laying, *, by: str, at: datetime, tap: str = "") -> None:
    """Tell of a cell at a place; a cell lies in one place at a time."""
    if what.what not in WHATS or what.place < 1 or not what.cell:
        cure = f"Say one of {', '.join(WHATS)}, of a cell by its mark."
        raise RecordError([Problem("This tells nothing of a cell.", cure, key="what", value=what.what[:40])])

    def work(db: Connection) -> int:
        panel = known(db, Serials.serial, serial, "serial")
        lot = known(db, Lots.mark, what.lot, "lot")
        if what.what == "laid":
            _refuse_elsewhere(db, (serial, what.place), lot, what.cell)
        told = {"mark": what.cell, "what": what.what, "reason": what.reason, "deal_id": what.deal}
        return add(db, Rows, serial_id=panel, place=what.place, lot_id=lot, who=by, at=at, **told)

    write(ledger, work, kind="laid", key=serial, at=at, tap=tap)


def _refuse_elsewhere(db: Connection, here: tuple[str, int], lot: int, cell: str) -> None:
    wanted = _standing().where(Rows.lot_id == lot, Rows.mark == cell, Rows.what == "laid")
    for each in all_of(db, wanted, Laid):
        if (each.serial, each.place) != here:
            reason = f"it lies in {each.serial}, place {each.place}."
            cure = "Lift it there first, or look at the mark again."
            raise RecordError([Problem(reason, cure, key="cell", value=cell)])


def laid(ledger: Ledger, serial: str) -> tuple[Laid, ...]:
    """Cells that lie in a panel now, by their places."""
    with ledger.reading() as db:
        panel = known(db, Serials.serial, serial, "serial")
        wanted = _standing().where(Rows.serial_id == panel, Rows.what == "laid")
        return all_of(db, wanted.order_by(Rows.place), Laid)


def all_laid(ledger: Ledger, serial: str) -> tuple[Laid, ...]:
    """Every cell that was laid in a panel, lifted or broken there, oldest first."""
    with ledger.reading() as db:
        panel = known(db, Serials.serial, serial, "serial")
        return all_of(db, _rows().where(Rows.serial_id == panel).order_by(Rows.id), Laid)


def lying(ledger: Ledger, lot: str) -> tuple[Laid, ...]:
    """Where the cells of a lot lie now, in whichever panel."""
    with ledger.reading() as db:
        wanted = _standing().where(Lots.mark == lot, Rows.what == "laid")
        return all_of(db, wanted.order_by(Rows.id), Laid)


def broken(ledger: Ledger, lot: str) -> tuple[Laid, ...]:
    """Cells of a lot that broke as they were laid."""
    with ledger.reading() as db:
        wanted = _rows().where(Lots.mark == lot, Rows.what == "broken").order_by(Rows.id)
        return all_of(db, wanted, Laid)


def taken(ledger: Ledger, lot: str) -> tuple[str, ...]:
    """Cells of a lot that can be dealt no more: they lie in a panel, were told of one as built, or broke.

    A cell that was exchanged in a deal broke, whether it had been laid by then or not.
    """
    newest = select(func.max(Builts.version)).where(Builts.serial_id == Serials.id).correlate(Serials)
    seated = (
        select(Cells.mark)
        .join(Seats, Seats.cell_id == Cells.id)
        .join(Builts, Seats.built_id == Builts.id)
        .join(Serials, Builts.serial_id == Serials.id)
        .join(Lots, Cells.lot_id == Lots.id)
        .where(Lots.mark == lot, Builts.version == newest.scalar_subquery())
    )
    exchanged = select(Swaps.mark_out).join(Deals, Swaps.deal_id == Deals.id)
    exchanged = exchanged.join(Lots, Deals.lot_id == Lots.id).where(Lots.mark == lot)
    with ledger.reading() as db:
        told = [*db.scalars(seated), *db.scalars(exchanged)]
    here = (*lying(ledger, lot), *broken(ledger, lot))
    return tuple(sorted({*told, *(each.cell for each in here)}))


def _standing() -> Wanted:
    """What was told last of each place."""
    later = aliased(Rows)
    newer = exists().where(later.serial_id == Rows.serial_id, later.place == Rows.place, later.id > Rows.id)
    return _rows().where(~newer)


def _rows() -> Wanted:
    told = (Rows.place, Lots.mark, Rows.mark, Rows.what, Rows.reason, Rows.who, Rows.at)
    return (
        select(Serials.serial, *told)
        .join(Serials, Rows.serial_id == Serials.id)
        .join(Lots, Rows.lot_id == Lots.id)
    )
