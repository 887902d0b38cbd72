"""Measured cells of a lot: the raw file, what its columns are, and the readings.

Nothing is overwritten: another file, another mapping is one more row. A mapping and all of
its readings are written in one breath; the newest mapping of the newest file is how the lot stands.
"""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any

import numpy as np
from numpy.typing import NDArray
from sqlalchemy import Connection, exists, select
from sqlalchemy.orm import aliased

from panewright.intake.cells import FIGURES, BadRow, CellRows, PassedRow
from panewright.ledger.asking import Wanted, all_of, first_of
from panewright.ledger.open import Ledger
from panewright.ledger.stale import refuse_stale
from panewright.ledger.tables.lots import LotRow as Lots
from panewright.ledger.tables.measured import CellMappingRow as Mappings
from panewright.ledger.tables.measured import CellReadingRow as Readings
from panewright.ledger.tables.measured import CellTableRow as Tables
from panewright.ledger.tables.readings import FileRow as Files
from panewright.ledger.writing import add, add_all, known, unknown, write

MOST_BAD = 5_000  #: bad rows told with a mapping; the raw file holds them all
_AT_ONCE = 5_000
_VALUE = 200  # letters of a value that is told


@dataclass(frozen=True, slots=True)
class CellTable:
    """A file of measured cells."""

    number: int
    lot: str
    sha256: str
    name: str
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class CellMapping:
    """What the columns are, as somebody settled it; `kind` is the cell's name, '' for the nearest."""

    number: int
    table: int
    version: int
    text: str
    kind: str
    told: str  #: JSON
    by: str
    at: datetime


def keep_table(
    ledger: Ledger, lot: str, sha256: str, name: str, *, by: str, at: datetime, tap: str = ""
) -> int:
    """A kept file is of the measured cells of a lot; its number."""

    def work(db: Connection) -> int:
        keys = {
            "lot_id": known(db, Lots.mark, lot, "lot"),
            "file_id": known(db, Files.sha256, sha256, "file"),
        }
        return add(db, Tables, name=name, who=by, at=at, **keys)

    return write(ledger, work, kind="lot", key=lot, at=at, tap=tap)


def newest_table(ledger: Ledger, lot: str) -> CellTable | None:
    """The file that holds now, with columns proposed or settled; None where no cell was measured."""
    wanted = _tables().where(Lots.mark == lot, _mapped()).order_by(Tables.id.desc())
    with ledger.reading() as db:
        return first_of(db, wanted, CellTable)


def tables(ledger: Ledger, *, most: int = 60) -> tuple[CellTable, ...]:
    """The newest file of each lot whose cells were measured, the latest first."""
    later = aliased(Tables)
    newer = exists().where(later.lot_id == Tables.lot_id, later.id > Tables.id, _mapped(later))
    with ledger.reading() as db:
        return all_of(
            db, _tables().where(_mapped(), ~newer).order_by(Tables.id.desc()).limit(most), CellTable
        )


def keep_mapping(
    ledger: Ledger,
    table: int,
    text: str,
    rows: CellRows | None,
    *,
    seen: int,
    kind: str = "",
    by: str,
    at: datetime,
    tap: str = "",
) -> CellMapping:
    """What the columns of a file are, with all readings that they give; None while something is open.

    `seen` is the version looked at, 0 for the first.
    """

    def work(db: Connection) -> int:
        stands = first_of(db, _mappings(table), CellMapping)
        refuse_stale("mapping", lot, seen=seen, stands=stands)
        told = _told(rows)
        line = {"table_id": table, "version": seen + 1, "text": text, "kind": kind, "told": told}
        key = add(db, Mappings, **line, who=by, at=at)
        for part in _parts(rows, key):
            add_all(db, Readings, part)
        return key

    lot = lot_of(ledger, table)
    write(ledger, work, kind="lot", key=lot, at=at, tap=tap)
    kept = newest_mapping(ledger, table)
    assert kept is not None
    return kept


def newest_mapping(ledger: Ledger, table: int) -> CellMapping | None:
    """What the columns are now."""
    with ledger.reading() as db:
        return first_of(db, _mappings(table), CellMapping)


def mapping_of_shape(ledger: Ledger, shape: tuple[str, ...], *, most: int = 100) -> str:
    """The mapping that was read last for a file of the same headings; '' where there is none."""
    wanted = select(Mappings.text, Mappings.told).order_by(Mappings.id.desc()).limit(most)
    with ledger.reading() as db:
        for text, told in db.execute(wanted):
            if json.loads(told).get("read") and _shape(text) == shape:
                return str(text)
    return ""


def readings(ledger: Ledger, mapping: CellMapping) -> CellRows | None:
    """The readings as they were kept with a mapping; None where it was not read yet."""
    told = json.loads(mapping.told)
    if not told["read"]:
        return None
    columns = [getattr(Readings, name) for name in ("mark", "row", *FIGURES, "remark", "grade", "time")]
    with ledger.reading() as db:
        wanted = select(*columns).where(Readings.mapping_id == mapping.number).order_by(Readings.id)
        found: list[tuple[Any, ...]] = [tuple(row) for row in db.execute(wanted)]
    by_column = list(zip(*found, strict=True)) or [()] * len(columns)
    named = dict(zip(("mark", "row", *FIGURES, "remark", "grade", "time"), by_column, strict=True))
    return CellRows(
        marks=named["mark"],
        row_numbers=np.array(named["row"], np.int64),
        figures={name: _array(named[name]) for name in told["figures"]},
        remarks=named["remark"],
        bad=tuple(BadRow(**each) for each in told["bad"]),
        passed=tuple(PassedRow(**each) for each in told["passed"]),
        grades=named["grade"] if any(named["grade"]) else (),
        times=named["time"] if any(named["time"]) else (),
        notes=tuple(told["notes"]),
        errors=told.get("errors", {}),
    )


def _mapped(table: Any = Tables) -> Any:
    """Only once its columns are kept, too, does a file count."""
    return exists().where(Mappings.table_id == table.id)


def _tables() -> Wanted:
    return (
        select(Tables.id, Lots.mark, Files.sha256, Tables.name, Tables.who, Tables.at)
        .join(Lots, Tables.lot_id == Lots.id)
        .join(Files, Tables.file_id == Files.id)
    )


def _mappings(table: int) -> Wanted:
    """Versions of a table's mapping, newest first."""
    told = [
        getattr(Mappings, name) for name in ("id", "table_id", "version", "text", "kind", "told", "who", "at")
    ]
    return select(*told).where(Mappings.table_id == table).order_by(Mappings.version.desc())


def lot_of(ledger: Ledger, table: int) -> str:
    """The lot whose cells a file is of."""
    with ledger.reading() as db:
        mark = db.scalar(select(Lots.mark).join(Tables, Tables.lot_id == Lots.id).where(Tables.id == table))
    if mark is None:
        raise unknown("table of cells", str(table))
    return str(mark)


def _shape(text: str) -> tuple[str, ...]:
    import tomllib

    return tuple(str(each.get("header", "")) for each in tomllib.loads(text).get("column", ()))


def _told(rows: CellRows | None) -> str:
    """What stands beside the readings, as JSON."""
    if rows is None:
        return json.dumps({"read": False})
    told = {
        "read": True,
        "figures": list(rows.figures),
        "bad": [{**asdict(each), "value": each.value[:_VALUE]} for each in rows.bad[:MOST_BAD]],
        "all_bad": len(rows.bad),
        "passed": [asdict(each) for each in rows.passed[:MOST_BAD]],
        "notes": list(rows.notes),
        "errors": dict(rows.errors),
    }
    return json.dumps(told, ensure_ascii=False)


def _parts(rows: CellRows | None, mapping: int) -> Any:
    """The readings as rows of the table, so many at once."""
    if rows is None:
        return
    count = len(rows)
    columns: dict[str, list[Any]] = {name: [None] * count for name in FIGURES}
    columns |= {name: _plain(figure) for name, figure in rows.figures.items()}
    columns["mark"], columns["row"] = list(rows.marks), rows.row_numbers.tolist()
    columns["remark"] = list(rows.remarks)
    columns["grade"] = list(rows.grades) or [""] * count
    columns["time"] = list(rows.times) or [""] * count
    names = list(columns)
    lines = zip(*columns.values(), strict=True)
    made = [{**dict(zip(names, line, strict=True)), "mapping_id": mapping} for line in lines]
    for first in range(0, count, _AT_ONCE):
        yield made[first : first + _AT_ONCE]


def _plain(figure: NDArray[np.float64]) -> list[float | None]:
    return [value if np.isfinite(value) else None for value in figure.tolist()]


def _array(values: tuple[float | None, ...]) -> NDArray[np.float64]:
    return np.array([np.nan if each is None else each for each in values], dtype=float)
