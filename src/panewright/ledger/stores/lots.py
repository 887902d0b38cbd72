"""Lots bought, by the mark the shop wrote on them: batch, supplier, expiry, price; and marked cells."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from sqlalchemy import Connection, func, select, union_all

from panewright.ledger.asking import Wanted, all_of, first_of
from panewright.ledger.open import Ledger
from panewright.ledger.stale import refuse_stale
from panewright.ledger.tables.built import BuiltRow as Builts
from panewright.ledger.tables.built import SeatRow as Seats
from panewright.ledger.tables.built import UsedRow as Uses
from panewright.ledger.tables.lots import CellRow as Cells
from panewright.ledger.tables.lots import LotDetailRow as Details
from panewright.ledger.tables.lots import LotRow as Lots
from panewright.ledger.tables.serials import SerialRow as Serials
from panewright.ledger.tables.stock import MovementRow as Movements
from panewright.ledger.tables.stock import RemnantRow as Remnants
from panewright.ledger.tables.stock import RemnantStateRow as Cuts
from panewright.ledger.writing import add, add_all, known, unknown, write

#: said so that no database goes through every movement with that reason instead of those of one lot or panel
WENT_IN = func.coalesce(Movements.reason, "") == "used"


@dataclass(frozen=True, slots=True)
class Lot:
    """What is known of a lot. `kind`: cells, ribbon, solder, flux, silicone, glass, rail ..."""

    kind: str
    name: str
    unit: str
    batch: str = ""
    supplier: str = ""
    received: date | None = None
    expires: date | None = None
    price: Decimal | None = None  #: of one unit
    currency: str = ""
    amount: Decimal | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class LotVersion:
    """A lot as somebody described it."""

    mark: str
    version: int
    lot: Lot
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell that bears a mark of its own; `figures` is JSON: its nameplate or what was measured."""

    mark: str
    figures: str = "{}"


def save_lot(
    ledger: Ledger, mark: str, lot: Lot, *, seen: int, by: str, at: datetime, tap: str = ""
) -> LotVersion:
    """Describe a lot, or describe it better; `seen` is the version looked at, 0 for a new lot."""

    def work(db: Connection) -> int:
        stands = first_of(db, _lots().where(Lots.mark == mark), _version)
        refuse_stale("lot", mark, seen=seen, stands=stands)
        key = db.scalar(select(Lots.id).where(Lots.mark == mark)) or add(db, Lots, mark=mark, who=by, at=at)
        told = {field: getattr(lot, field) for field in Lot.__dataclass_fields__}
        return add(db, Details, lot_id=key, version=seen + 1, who=by, at=at, **told)

    row = write(ledger, work, kind="lot", key=mark, at=at, tap=tap)
    with ledger.reading() as db:
        return _found(mark, first_of(db, _lots().where(Details.id == row), _version))


def find_lot(ledger: Ledger, mark: str) -> LotVersion:
    """A lot as it was described last."""
    with ledger.reading() as db:
        return _found(mark, first_of(db, _lots().where(Lots.mark == mark), _version))


def lots(ledger: Ledger, *, kind: str = "", most: int = 200) -> tuple[LotVersion, ...]:
    """The lots, of one kind or of all, newest first."""
    wanted = standing().order_by(None).order_by(Lots.id.desc()).limit(most)
    with ledger.reading() as db:
        return all_of(db, wanted.where(Details.kind == kind) if kind else wanted, _version)


def expiring(ledger: Ledger, day: date) -> tuple[LotVersion, ...]:
    """The lots that are past their day by then, the earliest first."""
    wanted = standing().where(Details.expires <= day).order_by(None).order_by(Details.expires, Lots.id)
    with ledger.reading() as db:
        return all_of(db, wanted, _version)


def lots_of_serial(ledger: Ledger, serial: str) -> tuple[LotVersion, ...]:
    """The lots that a panel holds, in any version of it or as they were taken for it, as described last."""
    with ledger.reading() as db:
        panel = known(db, Serials.serial, serial, "serial")
        found = db.scalars(select(into(panel).subquery().c.lot_id).distinct()).all()
        mine = standing().where(Lots.id.in_(found)).order_by(None).order_by(Lots.id)
        return all_of(db, mine, _version)


def into(panel: int) -> Wanted:
    """Each lot that went into a panel, with the moments at which somebody said so: `lot_id`, `at`."""
    held = [
        select(part.lot_id, Builts.at)
        .join(Builts, part.built_id == Builts.id)
        .where(Builts.serial_id == panel)
        for part in (Seats, Uses)
    ]
    moved = select(Movements.lot_id, Movements.at).where(
        Movements.serial_id == panel, WENT_IN, Movements.lot_id.is_not(None)
    )
    cut = select(Remnants.lot_id, Cuts.at).join(Remnants, Cuts.remnant_id == Remnants.id)
    cut = cut.where(Cuts.serial_id == panel, Remnants.lot_id.is_not(None))
    rows = union_all(*held, moved, cut).subquery()
    return select(rows.c.lot_id, rows.c.at)


def add_cells(
    ledger: Ledger, lot: str, cells: Sequence[Cell], *, by: str, at: datetime, tap: str = ""
) -> tuple[str, ...]:
    """Mark cells of a lot; their marks."""

    def work(db: Connection) -> int:
        key = known(db, Lots.mark, lot, "lot")
        told = {"lot_id": key, "who": by, "at": at}
        add_all(db, Cells, [{"mark": each.mark, "figures": each.figures, **told} for each in cells])
        return key

    write(ledger, work, kind="cells", key=lot, at=at, tap=tap)
    return tuple(each.mark for each in cells)


def cells_of(ledger: Ledger, lot: str) -> tuple[Cell, ...]:
    """The marked cells of a lot."""
    with ledger.reading() as db:
        key = known(db, Lots.mark, lot, "lot")
        wanted = select(Cells.mark, Cells.figures).where(Cells.lot_id == key).order_by(Cells.id)
        return all_of(db, wanted, Cell)


def _lots() -> Wanted:
    """Versions of lots, newest first."""
    told = [getattr(Details, field) for field in Lot.__dataclass_fields__]
    return (
        select(Lots.mark, Details.version, Details.who, Details.at, *told)
        .join(Lots, Details.lot_id == Lots.id)
        .order_by(Details.version.desc())
    )


def standing() -> Wanted:
    """The newest version of each lot."""
    later = select(func.max(Details.version)).where(Details.lot_id == Lots.id).correlate(Lots)
    return _lots().where(Details.version == later.scalar_subquery())


def _version(mark: str, version: int, by: str, at: datetime, *told: object) -> LotVersion:
    return LotVersion(mark, version, Lot(*told), by, at)  # type: ignore[arg-type]


def _found(mark: str, found: LotVersion | None) -> LotVersion:
    if found is None:
        raise unknown("lot", mark)
    return found
