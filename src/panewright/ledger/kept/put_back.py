"""A backup put back while the shop works on: nobody has to close anything, and no write falls between.

The new records are made whole in a room of their own and looked over. Then, while others wait with what they
write, what stands is kept as one more backup, and one transaction gives every table its new rows. Readers
see the old records or the new ones, and so does whoever opens them after the plug was pulled.
"""

from __future__ import annotations

import sqlite3
import zipfile
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, select

from panewright.errors import Problem, RecordError
from panewright.ledger.disk import make_folder, sync_folder
from panewright.ledger.far import Told, nobody, part
from panewright.ledger.kept import upgrade
from panewright.ledger.kept.backup import backup
from panewright.ledger.kept.restore import (
    change_schema,
    clear,
    fill,
    look_over,
    one_file,
    opened,
    put_files,
    rows_of,
    stamp,
)
from panewright.ledger.open import Ledger, engine_of
from panewright.ledger.tables.changes import ChangeRow
from panewright.ledger.writing import note

KIND = "restored"  #: how the journal calls it
Swap = Callable[[Told], None]
_BUSY_S = 30.0
_OWN = "name NOT LIKE 'sqlite_%'"  #: what SQLite keeps for itself it also makes itself


@dataclass(frozen=True, slots=True)
class Aside:
    """Where what stands is kept, and by whom."""

    path: Path
    program: str
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class PutBack:
    """What was put back, and the backup that holds what stood before."""

    rows: int
    files: int
    aside: Path


def put_back(ledger: Ledger, path: Path, aside: Aside, *, room: Path, told: Told = nobody) -> PutBack:
    """Put a backup in the place of records that others may have open; `room` is a folder to work in."""
    if ledger.files is None:
        raise ValueError(f"asked for records with a folder for files, got {ledger.files}")
    make_folder(room)
    way = _sqlite if ledger.engine.dialect.name == "sqlite" else _postgresql
    with opened(path) as packed:
        about = look_over(path, packed, told=part(told, 0, 20))
        put_files(packed, about, ledger.files, part(told, 20, 40))
        swap = way(ledger, packed, about, aside, room)
        told(60)
    swap(part(told, 60, 95))
    told(100)
    return PutBack(rows_of(about), len(about["files"]), aside.path)


def last_put_back(ledger: Ledger) -> str:
    """The last time that this was done, as the journal names it; blank where it never was."""
    wanted = select(ChangeRow.key).where(ChangeRow.kind == KIND).order_by(ChangeRow.id.desc()).limit(1)
    with ledger.reading() as db:
        return db.scalar(wanted) or ""


def _said(db: Connection, aside: Aside) -> None:
    """The journal tells of it: so pages learn of it too."""
    note(db, kind=KIND, key=f"{stamp(aside.at)} {aside.by}", row=1, at=aside.at, tap=None)


def _keep(ledger: Ledger, aside: Aside, room: Path, told: Told) -> None:
    """What stands, whole and under its final name before anything else happens."""
    half = room / aside.path.name
    half.unlink(missing_ok=True)
    backup(ledger, half, program=aside.program, at=aside.at, told=told)
    make_folder(aside.path.parent)
    half.replace(aside.path)
    sync_folder(aside.path.parent)


def _sqlite(ledger: Ledger, packed: zipfile.ZipFile, about: dict[str, Any], aside: Aside, room: Path) -> Swap:
    """The new records in a file of their own; what is given back puts them into the one that is open."""
    fresh = room / f"{stamp(aside.at)}.db"
    clear(fresh)
    try:
        _made(fresh, ledger, packed, about, aside)
    except BaseException:
        clear(fresh)
        raise

    def swap(told: Told) -> None:
        try:
            with _told_plainly(), closing(_alone(ledger, fresh)) as db:
                _keep(ledger, aside, room, told)
                _copy(db)
                db.execute("COMMIT")
        finally:
            clear(fresh)

    return swap


def _made(fresh: Path, ledger: Ledger, packed: zipfile.ZipFile, about: dict[str, Any], aside: Aside) -> None:
    engine = engine_of(ledger.engine.url.set(database=str(fresh)))
    try:
        fill(engine, packed, about)
        with engine.connect() as db, db.begin():
            _said(db, aside)
    finally:
        engine.dispose()
    one_file(fresh)


def _alone(ledger: Ledger, fresh: Path) -> sqlite3.Connection:
    """A connection that is the one writer from now on."""
    place = Path(str(ledger.engine.url.database)).resolve()
    db = sqlite3.connect(place.as_uri(), timeout=_BUSY_S, isolation_level=None, uri=True)
    try:
        for pragma in ("foreign_keys=OFF", "synchronous=FULL", "secure_delete=ON"):
            db.execute(f"PRAGMA {pragma}")
        if (said := db.execute("PRAGMA quick_check(1)").fetchone()[0]) != "ok":
            raise sqlite3.DatabaseError(said)
        db.execute("ATTACH ? AS fresh", (f"{fresh.resolve().as_uri()}?mode=ro",))  # never made by opening it
        if _asked(db, "SELECT version_num FROM fresh.alembic_version") != [(upgrade.NEWEST,)]:
            raise sqlite3.DatabaseError("what was made of the backup is not whole")
        db.execute("BEGIN IMMEDIATE")
    except BaseException:
        db.close()
        raise
    return db


def _copy(db: sqlite3.Connection) -> None:
    """Every table as in the other file, with its keys and guards, and nothing else."""
    for (name,) in _asked(db, f"SELECT name FROM main.sqlite_master WHERE type = 'table' AND {_OWN}"):
        db.execute(f'DROP TABLE main."{name}"')
    made = f"SELECT name, sql FROM fresh.sqlite_master WHERE sql IS NOT NULL AND {_OWN}"
    for name, sentence in _asked(db, f"{made} AND type = 'table'"):
        db.execute(sentence)
        db.execute(f'INSERT INTO main."{name}" SELECT * FROM fresh."{name}"')
    for _, sentence in _asked(db, f"{made} AND type <> 'table'"):
        db.execute(sentence)


def _asked(db: sqlite3.Connection, sentence: str) -> list[Any]:
    return db.execute(sentence).fetchall()


@contextmanager
def _told_plainly() -> Iterator[None]:
    try:
        yield
    except sqlite3.DatabaseError as reason:
        cure = "Close the shop and write: panewright ledger restore. Nothing was changed."
        said = f"the records that stand cannot be replaced while the shop is open: {reason}."
        raise RecordError([Problem(said, cure, key="records")]) from reason


def _postgresql(
    ledger: Ledger, packed: zipfile.ZipFile, about: dict[str, Any], aside: Aside, room: Path
) -> Swap:
    """All of it in one transaction, as where the shop is closed."""
    with ledger.writing() as db:
        _keep(ledger, aside, room, nobody)
        change_schema(db, packed, about, aside.at)
        _said(db, aside)
    return lambda _told: None
