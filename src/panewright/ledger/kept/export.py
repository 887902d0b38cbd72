"""All records in open formats: each table as a CSV for a spreadsheet and a JSON for a program; the files."""

from __future__ import annotations

import csv
import hashlib
import json
from collections.abc import Iterator
from datetime import date, datetime
from decimal import Decimal
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Table, select

from panewright.errors import Problem, RecordError
from panewright.ledger.far import Told, along, nobody, part
from panewright.ledger.open import Ledger
from panewright.ledger.tables import METADATA
from panewright.ledger.tables.readings import FileRow

#: a spreadsheet would reckon with a cell that begins so; some read the wide signs alike
_FORMULA = tuple("=+-@\t\r\n＝＋－＠")


def export(ledger: Ledger, folder: Path, *, told: Told = nobody) -> int:
    """Write everything into a new folder; how many rows."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise _refused(folder, "is there already.", "Name a new folder.")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with ledger.reading() as db:
            tables = along(METADATA.sorted_tables, part(told, 0, 60))
            rows = sum(_write(db, table, folder) for table in tables)
            _files(ledger, db, folder / "files", part(told, 60, 100))
    except OSError as reason:
        raise _refused(folder, f"cannot be written: {reason.strerror}.", "Choose another place.") from reason
    return rows


def _write(db: Connection, table: Table, folder: Path) -> int:
    """One table in both formats, row by row: ten thousand panels need no more room than one."""
    names, count = [column.name for column in table.columns], 0
    place = folder / table.name
    with (
        place.with_suffix(".csv").open("w", encoding="utf-8-sig", newline="") as sheet,
        place.with_suffix(".json").open("w", encoding="utf-8") as record,
    ):
        lines = csv.writer(sheet)
        lines.writerow(names)
        record.write("[")
        for count, row in enumerate(_rows(db, table), 1):
            lines.writerow([cell(value) for value in row])
            told = dict(zip(names, map(_plain, row), strict=True))
            record.write(("\n" if count == 1 else ",\n") + json.dumps(told, ensure_ascii=False))
        record.write("\n]\n")
    return count


def _rows(db: Connection, table: Table) -> Iterator[Any]:
    yield from db.execution_options(yield_per=5_000).execute(select(table).order_by(table.c.id))


def cell(value: Any) -> Any:
    """What a spreadsheet gets: text stays text, also where it begins like a formula.

    >>> cell("=1+1"), cell("-5 W"), cell(-5.0), cell(Decimal("-0.1")), cell(None)
    ("'=1+1", "'-5 W", -5.0, '-0.1', '')
    """
    if isinstance(value, str):
        return f"'{value}" if value.startswith(_FORMULA) else value
    return "" if value is None else _plain(value)


def _plain(value: Any) -> Any:
    if isinstance(value, Decimal):
        return str(value)
    return value.isoformat() if isinstance(value, (datetime, date)) else value


def _files(ledger: Ledger, db: Connection, folder: Path, told: Told) -> None:
    """The files that are there and are what was kept, under their digests, as in the records."""
    folder.mkdir()
    for digest in along(db.scalars(select(FileRow.sha256)).all(), told):
        lies = ledger.files / digest[:2] / digest if ledger.files else None
        data = lies.read_bytes() if lies and lies.is_file() else b""
        if hashlib.sha256(data).hexdigest() == digest:  # nothing else that may lie there goes out
            (folder / digest).write_bytes(data)


def _refused(folder: Path, reason: str, cure: str) -> RecordError:
    return RecordError([Problem(reason, cure, file=str(folder))])
