"""Which panels a bad batch or a faulty instrument touches: one query each."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from typing import Any

from sqlalchemy import Connection, Subquery, case, distinct, func, literal, select, union_all
from sqlalchemy.orm import aliased

from panewright.ledger.asking import Wanted, all_of
from panewright.ledger.open import Ledger
from panewright.ledger.stores.lots import WENT_IN
from panewright.ledger.tables.built import BuiltRow as Builts
from panewright.ledger.tables.built import SeatRow as Seats
from panewright.ledger.tables.built import UsedRow as Uses
from panewright.ledger.tables.lots import LotDetailRow as Details
from panewright.ledger.tables.lots import LotRow as Lots
from panewright.ledger.tables.readings import InstrumentRow as Instruments
from panewright.ledger.tables.readings import ReadingRow as Readings
from panewright.ledger.tables.serials import SerialRow as Serials
from panewright.ledger.tables.stock import MovementRow as Movements
from panewright.ledger.tables.stock import RemnantRow as Remnants
from panewright.ledger.tables.stock import RemnantStateRow as Cuts
from panewright.ledger.writing import known, unknown


@dataclass(frozen=True, slots=True)
class Affected:
    """A panel that holds something of a lot, or once held it."""

    serial: str
    cells: int  #: at most in any version of it
    material: bool  #: something else than cells went in
    now: bool  #: it still does, as it was told last

    def __str__(self) -> str:
        cells = "one cell" if self.cells == 1 else f"{self.cells} cells" if self.cells else ""
        what = " and ".join(filter(None, (cells, "material" if self.material else "")))
        return f"{self.serial}: {what}{'' if self.now else ', taken out since'}"


@dataclass(frozen=True, slots=True)
class ReadBy:
    """A panel that an instrument was used on, itself or its cells."""

    serial: str
    readings: int
    first: datetime
    last: datetime

    def __str__(self) -> str:
        times = "one reading" if self.readings == 1 else f"{self.readings} readings"
        return f"{self.serial}: {times}, {self.first:%Y-%m-%d} to {self.last:%Y-%m-%d}"


def serials_of_lot(ledger: Ledger, mark: str) -> tuple[Affected, ...]:
    """The panels that hold cells or material of one lot."""
    with ledger.reading() as db:
        return _affected(db, select(literal(known(db, Lots.mark, mark, "lot")).label("id")))


def serials_of_batch(ledger: Ledger, batch: str, *, kind: str = "") -> tuple[Affected, ...]:
    """The panels that hold something of a batch, in however many lots it came, ever so described."""
    wanted = select(Details.lot_id.label("id")).where(Details.batch == batch).distinct()
    with ledger.reading() as db:
        return _affected(db, wanted.where(Details.kind == kind) if kind else wanted)


def serials_of(ledger: Ledger, name: str) -> tuple[Affected, ...]:
    """The panels that hold something of a lot by the shop's mark, or of a batch by its maker's.

    `RecordError` where the records know neither: a name mistyped must not look like good news.
    """
    with ledger.reading() as db:
        batch = select(Details.lot_id.label("id")).where(Details.batch == name)
        either = batch.union(select(Lots.id.label("id")).where(Lots.mark == name)).subquery()
        wanted = select(either.c.id)
        if db.execute(wanted.limit(1)).first() is None:
            raise unknown("batch or lot", name)
        return _affected(db, wanted)


def serials_of_instrument(
    ledger: Ledger, name: str, *, since: date | None = None, until: date | None = None
) -> tuple[ReadBy, ...]:
    """The panels read by an instrument from one day to another, both counted, and those whose cells were."""
    begin = datetime.combine(since or date.min, time.min, UTC)
    end = datetime.combine(until, time.max, UTC) if until else None
    with ledger.reading() as db:
        mine = [Readings.instrument_id == known(db, Instruments.name, name, "instrument")]
        mine += [Readings.at >= begin] if since else []
        mine += [Readings.at <= end] if end else []
        rows = union_all(_itself(mine), _by_its_cells(mine)).subquery()
        told = (func.count(distinct(rows.c.reading)), func.min(rows.c.at), func.max(rows.c.at))
        wanted = select(Serials.serial, *told).join(rows, rows.c.serial_id == Serials.id)
        return all_of(db, wanted.group_by(Serials.id, Serials.serial).order_by(Serials.id), ReadBy)


def _affected(db: Connection, lots: Wanted) -> tuple[Affected, ...]:
    """Cells and material of some lots, as panels were told and as it was taken for them, panel by panel."""
    bad = lots.subquery()
    rows = union_all(_told(bad), _taken(bad), _cut(bad)).subquery()
    told = (func.max(rows.c.cells), func.min(rows.c.least) == 0, func.max(rows.c.now) == 1)
    wanted = select(Serials.serial, *told).join(rows, rows.c.serial_id == Serials.id)
    return all_of(db, wanted.group_by(Serials.id, Serials.serial).order_by(Serials.id), Affected)


def _told(bad: Subquery) -> Wanted:
    """What each version of a panel holds of them."""
    newer = aliased(Builts)
    cells = select(Seats.built_id, literal(1).label("cell")).join(bad, Seats.lot_id == bad.c.id)
    uses = select(Uses.built_id, literal(0).label("cell")).join(bad, Uses.lot_id == bad.c.id)
    rows = union_all(cells, uses).subquery()
    held = (
        select(rows.c.built_id, func.sum(rows.c.cell).label("cells"), func.min(rows.c.cell).label("least"))
        .group_by(rows.c.built_id)
        .subquery()
    )
    last = select(func.max(newer.version)).where(newer.serial_id == Builts.serial_id).correlate(Builts)
    now = case((Builts.version == last.scalar_subquery(), 1), else_=0).label("now")
    return select(Builts.serial_id, held.c.cells, held.c.least, now).join(held, held.c.built_id == Builts.id)


def _taken(bad: Subquery) -> Wanted:
    """Material that was taken from the shelf for a panel: it counts as in it from then on."""
    wanted = select(Movements.serial_id, *_MATERIAL).join(bad, Movements.lot_id == bad.c.id)
    return wanted.where(Movements.serial_id.is_not(None), WENT_IN)


def _cut(bad: Subquery) -> Wanted:
    """Pieces left over of them that were cut up for a panel."""
    wanted = select(Cuts.serial_id, *_MATERIAL).join(Remnants, Cuts.remnant_id == Remnants.id)
    return wanted.join(bad, Remnants.lot_id == bad.c.id).where(Cuts.serial_id.is_not(None))


_MATERIAL = (literal(0).label("cells"), literal(0).label("least"), literal(1).label("now"))


def _itself(mine: list[Any]) -> Wanted:
    wanted = select(
        Readings.serial_id.label("serial_id"), Readings.id.label("reading"), Readings.at.label("at")
    )
    return wanted.where(Readings.serial_id.is_not(None), *mine)


def _by_its_cells(mine: list[Any]) -> Wanted:
    told = (Builts.serial_id.label("serial_id"), Readings.id.label("reading"), Readings.at.label("at"))
    return (
        select(*told)
        .join(Seats, Seats.cell_id == Readings.cell_id)
        .join(Builts, Seats.built_id == Builts.id)
        .where(*mine)
    )
