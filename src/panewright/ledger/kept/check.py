"""Whether the records are sound, in plain sentences; nothing is mended here."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, func, inspect, select

from panewright.errors import RecordError
from panewright.ledger import guards
from panewright.ledger.far import Told, along, nobody, part
from panewright.ledger.kept import upgrade
from panewright.ledger.open import Ledger
from panewright.ledger.tables import METADATA
from panewright.ledger.tables.arrays import ArrayLayingRow, ArrayVersionRow
from panewright.ledger.tables.built import BuiltRow
from panewright.ledger.tables.changes import ChangeRow
from panewright.ledger.tables.customers import DetailRow
from panewright.ledger.tables.deals import DealSwapRow
from panewright.ledger.tables.lots import LotDetailRow
from panewright.ledger.tables.measured import CellMappingRow
from panewright.ledger.tables.orders import DocumentRow, OrderVersionRow
from panewright.ledger.tables.promises import PromiseRow
from panewright.ledger.tables.purchases import ReceiptRow
from panewright.ledger.tables.readings import FileRow

_VERSIONS: tuple[tuple[str, Any, Any], ...] = (
    ("an order", OrderVersionRow, OrderVersionRow.order_id),
    ("a lot", LotDetailRow, LotDetailRow.lot_id),
    ("a customer", DetailRow, DetailRow.customer_id),
    ("a panel", BuiltRow, BuiltRow.serial_id),
    ("a promise", PromiseRow, PromiseRow.order_id),
    ("a receipt", ReceiptRow, ReceiptRow.line_id),
    ("a table of cells", CellMappingRow, CellMappingRow.table_id),
    ("a deal", DealSwapRow, DealSwapRow.deal_id),
    ("an array", ArrayVersionRow, ArrayVersionRow.array_id),
    ("how an array lies", ArrayLayingRow, ArrayLayingRow.array_id),
)


@dataclass(frozen=True, slots=True)
class Soundness:
    """What was looked over, and what is wrong with it."""

    rows: int
    files: int
    faults: tuple[str, ...]


def check(ledger: Ledger, *, told: Told = nobody) -> Soundness:
    """Look the records over: the database's own tests, numbers without gaps, digests, files, guards."""
    try:
        return _looked_over(ledger, told)
    except RecordError as damaged:
        return Soundness(
            0, 0, tuple(f"The records cannot be read to their end: {each}" for each in damaged.problems)
        )


def _looked_over(ledger: Ledger, told: Told) -> Soundness:
    with ledger.reading() as db:
        faults = [*_database(db), *_tables(db)]
        told(30)
        if not faults:  # else the questions below cannot be asked
            faults += [*_gaps(db), *_documents(db), *_guards(db), *_files(ledger, db, part(told, 40, 95))]
        rows = 0 if faults else sum(_count(db, table) for table in METADATA.sorted_tables)
        files = 0 if faults else _count(db, FileRow.__table__)
    return Soundness(rows, files, tuple(faults))


def _count(db: Connection, table: Any) -> int:
    return db.scalar(select(func.count()).select_from(table)) or 0


def _database(db: Connection) -> Iterator[str]:
    """What SQLite finds itself; PostgreSQL keeps its own pages and keys."""
    if db.dialect.name != "sqlite":
        return
    for (said,) in db.exec_driver_sql("PRAGMA integrity_check"):
        if said != "ok":
            yield f"The file of the records is damaged: {said}."
    for row in db.exec_driver_sql("PRAGMA foreign_key_check"):
        yield f"A row of {row[0]} points at a row of {row[2]} that is not there."


def _tables(db: Connection) -> Iterator[str]:
    there = set(inspect(db).get_table_names())
    for name in sorted(set(METADATA.tables) - there):
        yield f"The table {name} is missing."
    if upgrade.standing(db) != upgrade.NEWEST:
        yield f"The schema is {upgrade.standing(db)}, not {upgrade.NEWEST}."


def _gaps(db: Connection) -> Iterator[str]:
    """Numbers run on without gaps: where one is missing, a row that was confirmed is lost."""
    last, count = db.execute(select(func.coalesce(func.max(ChangeRow.id), 0), func.count(ChangeRow.id))).one()
    if last != count:
        yield f"{last - count} lines of the journal are missing of {last}."
    for words, table, owner in _VERSIONS:
        short = func.max(table.version) != func.count()
        for key, most in db.execute(select(owner, func.max(table.version)).group_by(owner).having(short)):
            yield f"Versions of {words} (number {key} of its table) are missing; the last is {most}."


def _documents(db: Connection) -> Iterator[str]:
    for digest, words in db.execute(select(DocumentRow.digest, DocumentRow.text)):
        if hashlib.sha256(words.encode()).hexdigest() != digest:
            yield f"The text {digest[:12]} (a shelf as it was) is not what was kept."


def _guards(db: Connection) -> Iterator[str]:
    for table in guards.unguarded(db):
        yield f"The table {table} is not guarded: its rows could be changed."


def _files(ledger: Ledger, db: Connection, told: Told) -> Iterator[str]:
    named = db.execute(select(FileRow.sha256, FileRow.name).order_by(FileRow.id)).all()
    for digest, name in along(named, told):
        lies = ledger.files / digest[:2] / digest if ledger.files else None
        if lies is None or not lies.is_file():
            yield f"The file {name} ({digest[:12]}) is missing."
        elif hashlib.sha256(lies.read_bytes()).hexdigest() != digest:
            yield f"The file {name} ({digest[:12]}) is not what was kept."
