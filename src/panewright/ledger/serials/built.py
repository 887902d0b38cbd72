"""What really lies in each panel, version by version: cells, joints, material, what is not as designed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Any

from sqlalchemy import Connection, func, select, tuple_

from panewright.errors import Problem, RecordError
from panewright.ledger.asking import Wanted, all_of, first_of, one_of
from panewright.ledger.open import Ledger
from panewright.ledger.stale import refuse_stale
from panewright.ledger.tables.built import BuiltRow as Builts
from panewright.ledger.tables.built import DeviationRow as Deviations
from panewright.ledger.tables.built import JointRow as Joints
from panewright.ledger.tables.built import SeatRow as Seats
from panewright.ledger.tables.built import SubstitutionRow as Substitutions
from panewright.ledger.tables.built import UsedRow as Uses
from panewright.ledger.tables.lots import CellRow as Cells
from panewright.ledger.tables.lots import LotRow as Lots
from panewright.ledger.tables.serials import SerialRow as Serials
from panewright.ledger.writing import add, add_all, known, unknown, write


@dataclass(frozen=True, slots=True)
class Seat:
    """Which cell sits where; `cell` blank where the cells of the lot bear no marks."""

    place: str
    lot: str
    cell: str = ""


@dataclass(frozen=True, slots=True)
class Joint:
    """A joint, with who made it."""

    start: str
    end: str
    kind: str  #: 'sound', 'cold', 'remade' ...
    maker: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Use:
    """How much of which lot went in; no amount where nobody measured it."""

    lot: str
    amount: Decimal | None = None
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Substitution:
    """Another part than the design names."""

    part: str
    planned: str
    really: str
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Deviation:
    """Something else that is not as designed."""

    what: str
    places: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Built:
    """A panel as it really is. `figures` and `checks` are JSON; the checks are of the panel as built."""

    program: str
    figures: str
    checks: str
    proven: bool
    seats: tuple[Seat, ...] = ()
    joints: tuple[Joint, ...] = ()
    uses: tuple[Use, ...] = ()
    substitutions: tuple[Substitution, ...] = ()
    deviations: tuple[Deviation, ...] = ()


@dataclass(frozen=True, slots=True)
class BuiltVersion:
    """A panel as somebody told that it is."""

    serial: str
    version: int
    built: Built
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class _Head:
    """A version without its parts."""

    id: int
    serial: str
    version: int
    program: str
    figures: str
    checks: str
    proven: bool
    by: str
    at: datetime


def record_built(
    ledger: Ledger, serial: str, built: Built, *, seen: int, by: str, at: datetime, tap: str = ""
) -> BuiltVersion:
    """Keep what a panel really is; `seen` is the version looked at, 0 for the first."""

    def work(db: Connection) -> int:
        panel = known(db, Serials.serial, serial, "serial")
        stands = first_of(db, _heads().where(Builts.serial_id == panel), _Head)
        refuse_stale("serial", serial, seen=seen, stands=stands)
        names = ("program", "figures", "checks", "proven")
        told = {name: getattr(built, name) for name in names}
        key = add(db, Builts, serial_id=panel, version=seen + 1, who=by, at=at, **told)
        _add_parts(db, key, panel, built)
        return key

    row = write(ledger, work, kind="built", key=serial, at=at, tap=tap)
    with ledger.reading() as db:
        return _whole(db, one_of(db, _heads().where(Builts.id == row), _Head))


def find_built(ledger: Ledger, serial: str) -> BuiltVersion:
    """A panel as it was told last; `RecordError` where nothing was."""
    found = last_built(ledger, serial)
    if found is None:
        raise RecordError([Problem("nothing was told yet of how it is built.", "Tell it.", value=serial)])
    return found


def last_built(ledger: Ledger, serial: str) -> BuiltVersion | None:
    """The same; None where nothing was told yet."""
    with ledger.reading() as db:
        panel = known(db, Serials.serial, serial, "serial")
        head = first_of(db, _heads().where(Builts.serial_id == panel), _Head)
        return None if head is None else _whole(db, head)


def builts(ledger: Ledger, serial: str) -> tuple[BuiltVersion, ...]:
    """Every version of what a panel is, oldest first; none where nothing was told yet."""
    with ledger.reading() as db:
        panel = known(db, Serials.serial, serial, "serial")
        heads = all_of(db, _heads().where(Builts.serial_id == panel), _Head)
        return tuple(_whole(db, head) for head in reversed(heads))


def _add_parts(db: Connection, key: int, panel: int, built: Built) -> None:
    lots = _keys(db, Lots.mark, {each.lot for each in built.seats} | {each.lot for each in built.uses}, "lot")
    cells = _cells(db, built.seats, lots)
    _refuse_taken(db, panel, cells)
    seats = [
        {"place": each.place, "lot_id": lots[each.lot], "cell_id": cells.get((each.lot, each.cell))}
        for each in built.seats
    ]
    uses = [{"lot_id": lots[each.lot], "amount": each.amount, "unit": each.unit} for each in built.uses]
    parts: tuple[tuple[Any, list[dict[str, Any]]], ...] = (
        (Seats, seats),
        (Uses, uses),
        (Joints, _fields(built.joints)),
        (Substitutions, _fields(built.substitutions)),
        (Deviations, _fields(built.deviations)),
    )
    for table, rows in parts:
        add_all(db, table, [{"built_id": key, **row} for row in rows])


def _fields(records: Sequence[Any]) -> list[dict[str, Any]]:
    return [{name: getattr(each, name) for name in each.__dataclass_fields__} for each in records]


def _keys(db: Connection, column: Any, values: set[str], what: str) -> dict[str, int]:
    found = {row[0]: row[1] for row in db.execute(select(column, column.class_.id).where(column.in_(values)))}
    if missing := sorted(values - set(found)):
        raise unknown(what, missing[0])
    return found


def _cells(db: Connection, seats: Sequence[Seat], lots: dict[str, int]) -> dict[tuple[str, str], int]:
    """The id of each marked cell, by lot and mark."""
    marked = [(lots[each.lot], each.cell) for each in seats if each.cell]
    twice = sorted({each for each in marked if marked.count(each) > 1})
    if twice:
        raise RecordError([Problem("it sits in two places.", "Look again.", key="cell", value=twice[0][1])])
    wanted = select(Lots.mark, Cells.mark, Cells.id).join(Lots, Cells.lot_id == Lots.id)
    rows = db.execute(wanted.where(tuple_(Cells.lot_id, Cells.mark).in_(marked))) if marked else ()
    found = {(row[0], row[1]): row[2] for row in rows}
    for each in seats:
        if each.cell and (each.lot, each.cell) not in found:
            raise unknown("cell", f"{each.cell} of lot {each.lot}")
    return found


def _refuse_taken(db: Connection, panel: int, cells: dict[tuple[str, str], int]) -> None:
    """A cell lies in one panel at a time."""
    newer = select(func.max(Builts.version)).where(Builts.serial_id == Serials.id).correlate(Serials)
    wanted = (
        select(Serials.serial, Seats.place, Cells.mark)
        .join(Builts, Seats.built_id == Builts.id)
        .join(Serials, Builts.serial_id == Serials.id)
        .join(Cells, Seats.cell_id == Cells.id)
        .where(Seats.cell_id.in_(cells.values()), Builts.serial_id != panel)
        .where(Builts.version == newer.scalar_subquery())
    )
    found = db.execute(wanted).first() if cells else None
    if found:
        reason = f"it sits in {found.serial}, place {found.place}."
        cure = "Take it out of that panel first, or look at the mark again."
        raise RecordError([Problem(reason, cure, key="cell", value=found.mark)])


def _heads() -> Wanted:
    """Versions of panels, newest first."""
    told = (Builts.program, Builts.figures, Builts.checks, Builts.proven, Builts.who, Builts.at)
    return (
        select(Builts.id, Serials.serial, Builts.version, *told)
        .join(Serials, Builts.serial_id == Serials.id)
        .order_by(Builts.version.desc())
    )


def _whole(db: Connection, head: _Head) -> BuiltVersion:
    """A version with all its parts."""
    seats = (
        select(Seats.place, Lots.mark, func.coalesce(Cells.mark, ""))
        .join(Lots, Seats.lot_id == Lots.id)
        .outerjoin(Cells, Seats.cell_id == Cells.id)
    )
    uses = select(Lots.mark, Uses.amount, Uses.unit).join(Lots, Uses.lot_id == Lots.id)
    built = Built(
        head.program,
        head.figures,
        head.checks,
        head.proven,
        all_of(db, seats.where(Seats.built_id == head.id).order_by(Seats.id), Seat),
        _parts(db, Joints, Joint, head.id),
        all_of(db, uses.where(Uses.built_id == head.id).order_by(Uses.id), Use),
        _parts(db, Substitutions, Substitution, head.id),
        _parts(db, Deviations, Deviation, head.id),
    )
    return BuiltVersion(head.serial, head.version, built, head.by, head.at)


def _parts(db: Connection, table: Any, record: Any, key: int) -> tuple[Any, ...]:
    columns = [getattr(table, name) for name in record.__dataclass_fields__]
    return all_of(db, select(*columns).where(table.built_id == key).order_by(table.id), record)
