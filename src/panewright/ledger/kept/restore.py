"""A backup put back. What stands is moved aside, never destroyed; a backup that is not whole is refused.

The new records are made whole beside those that stand, and looked over; only then do they take their
place, in one step: a new name for a file of SQLite, one transaction in PostgreSQL.
"""

from __future__ import annotations

import hashlib
import io
import json
import os
import shutil
import sqlite3
import struct
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from itertools import count
from pathlib import Path
from typing import Any

from sqlalchemy import URL, Connection, Engine, inspect, text
from sqlalchemy.exc import SQLAlchemyError

from panewright.ledger.disk import sync_folder
from panewright.ledger.far import Told, along, nobody
from panewright.ledger.files import put
from panewright.ledger.kept import dump, upgrade
from panewright.ledger.kept.backup import WHAT, refused
from panewright.ledger.open import engine_of, open_ledger, url_of
from panewright.ledger.writers import lock_writers

#: what Python's own reader of zips says of one that is spoilt; RuntimeError: it looks as if it were locked
_SPOILT = (
    OSError,
    EOFError,
    zipfile.BadZipFile,
    zlib.error,
    NotImplementedError,
    RuntimeError,
    struct.error,
    SQLAlchemyError,
)
_CURE = "Take another backup; nothing was changed."
_ABOUT_MOST = 200_000_000  #: bytes: a million files, and each is named
_LINE_MOST = 100_000_000  #: bytes of a row: three of the longest texts, every sign written out


@dataclass(frozen=True, slots=True)
class Restored:
    """What was put back, and where what stood before is now."""

    rows: int
    files: int
    aside: str  #: blank where there was nothing


def restore(path: Path, where: str | Path, *, files: Path, at: datetime) -> Restored:
    """Put a backup in the place of the records at a path or a URL."""
    url = url_of(where)
    with opened(path) as packed:
        about = look_over(path, packed)
        put_files(packed, about, files)
        way = _into_sqlite if url.get_backend_name() == "sqlite" else _into_postgresql
        aside = way(url, packed, about, at)
    return Restored(rows_of(about), len(about["files"]), aside)


def rows_of(about: dict[str, Any]) -> int:
    """How many rows a backup holds."""
    return sum(int(each["rows"]) for each in about["tables"].values())


def put_files(packed: zipfile.ZipFile, about: dict[str, Any], files: Path, told: Told = nobody) -> None:
    """The backup's files into the folder of files; what is there stays."""
    for digest in along(list(about["files"]), told):
        put(files / digest[:2] / digest, packed.read(f"files/{digest}"))  # as large as the backup at most


@contextmanager
def opened(path: Path) -> Iterator[zipfile.ZipFile]:
    """A zip; `RecordError` where it is none, or cannot be read to its end."""
    try:
        with zipfile.ZipFile(path) as packed:
            yield packed
    except _SPOILT as reason:
        said = str(getattr(reason, "orig", None) or reason).partition("\n")[0]  # the rest may hold a row
        raise refused(path, f"cannot be read as a backup: {said}.", _CURE) from reason


def look_over(path: Path, packed: zipfile.ZipFile, *, told: Told = nobody) -> dict[str, Any]:
    """What a backup tells of itself, once every table and file in it was held against its digest."""
    try:
        _refuse_blown_up(path, packed)
        about: dict[str, Any] = json.loads(packed.read("about.json"))
        if about["what"] != WHAT:
            raise refused(path, "is no backup of a shop's records.", _CURE)
        known = {each.revision for each in upgrade.script().walk_revisions()}
        if about["schema"] not in known:
            raise refused(path, "was made by a newer Panewright.", "Restore it with that one.")
        named = {f"tables/{name}.jsonl": each["sha256"] for name, each in about["tables"].items()}
        named |= {f"files/{digest}": digest for digest in about["files"]}
        for name, digest in along(list(named.items()), told):
            if _digest(packed, name) != digest:
                raise refused(path, f"is spoilt: {name} is not what was written.", _CURE)
    except (KeyError, TypeError, ValueError) as reason:
        raise refused(path, f"is not whole: {reason}.", _CURE) from reason
    return about


def _refuse_blown_up(path: Path, packed: zipfile.ZipFile) -> None:
    """Small zips can hold endless zeros: what is read whole must not be larger than it honestly can be."""
    for each in packed.infolist():
        squeezed = each.filename.startswith("files/") and each.compress_type != zipfile.ZIP_STORED
        if squeezed or (each.filename == "about.json" and each.file_size > _ABOUT_MOST):
            raise refused(path, f"is no backup of ours: {each.filename} is blown up.", _CURE)


def _short_lines(member: Any) -> Iterator[str]:
    """Lines of a table, none longer than the longest row can be."""
    buffered = io.BufferedReader(member)  # a member's own lines take eight times as long
    while line := buffered.readline(_LINE_MOST + 1):
        if len(line) > _LINE_MOST:
            raise zipfile.BadZipFile("a line is longer than any row can be")
        yield line.decode()


def _digest(packed: zipfile.ZipFile, name: str) -> str:
    with packed.open(name) as member:
        return hashlib.file_digest(member, "sha256").hexdigest()  # type: ignore[arg-type]


def _into_sqlite(url: URL, packed: zipfile.ZipFile, about: dict[str, Any], at: datetime) -> str:
    place = Path(str(url.database))
    fresh = place.with_name(f"{place.name}.restoring")
    clear(fresh)
    try:
        engine = engine_of(url.set(database=str(fresh)))
        try:
            fill(engine, packed, about)
        finally:
            engine.dispose()
        one_file(fresh)
        aside = _set_aside(place, at)
        fresh.replace(place)
    finally:
        clear(fresh)
    sync_folder(place.parent)
    return aside


def clear(file: Path) -> None:
    """Nothing half restored stays: it would fill the disk, and tell of customers."""
    for left in (file, *_beside(file)):
        left.unlink(missing_ok=True)


def fill(engine: Engine, packed: zipfile.ZipFile, about: dict[str, Any]) -> None:
    """The schema of the backup, its rows, then the steps up to the schema of today."""
    upgrade.to(engine, about["schema"])
    with engine.connect() as db, db.begin():
        _rows(db, packed, about)
    upgrade.to_newest(engine)


def _rows(db: Connection, packed: zipfile.ZipFile, about: dict[str, Any]) -> None:
    made = dump.tables(db)
    if {table.name for table in made} != set(about["tables"]):
        raise zipfile.BadZipFile("it lacks a table, or holds one too many")
    for table in made:
        with packed.open(f"tables/{table.name}.jsonl") as member:
            dump.load(db, table, _short_lines(member))
    dump.count_on(db, made)


def _beside(file: Path) -> tuple[Path, Path]:
    """What SQLite keeps beside a file in use."""
    return file.with_name(f"{file.name}-wal"), file.with_name(f"{file.name}-shm")


def one_file(file: Path) -> None:
    """All of it in the one file, and on the disk; an error where somebody else has it open."""
    db = sqlite3.connect(file, timeout=1)
    try:
        if db.execute("PRAGMA journal_mode=DELETE").fetchone()[0] != "delete":
            raise sqlite3.OperationalError("database is locked")
    finally:
        db.close()
    with file.open("rb+") as opened:
        os.fsync(opened.fileno())


def _set_aside(place: Path, at: datetime) -> str:
    """A second name for the file that stands, so that it never lacks one."""
    if not place.exists():
        return ""
    try:
        one_file(place)
    except sqlite3.DatabaseError as reason:
        if "locked" in str(reason):
            cure = "Put it back from the page of the records, or close the shop first; nothing was changed."
            raise refused(place, "the records are in use.", cure) from reason
        for each in _beside(place):  # spoilt: nobody can read it, but it is kept with all that belongs to it
            if each.exists():
                each.replace(each.with_name(f"{each.name}.{stamp(at)}"))
    aside = _free(place.with_name(f"{place.stem}-before-{stamp(at)}{place.suffix}"))
    try:
        os.link(place, aside)
    except OSError:  # not every disk can give a file a second name
        shutil.copyfile(place, aside)
    return str(aside)


def _free(path: Path) -> Path:
    """A name that nothing bears: a clock set back must not put one copy over another."""
    names = (path.with_stem(f"{path.stem}-{number}") for number in count(2))
    return path if not path.exists() else next(each for each in names if not each.exists())


def stamp(at: datetime) -> str:
    """A moment as names bear it."""
    return at.strftime("%Y%m%dT%H%M%S%f")


def _into_postgresql(url: URL, packed: zipfile.ZipFile, about: dict[str, Any], at: datetime) -> str:
    """In one transaction: the tables that stand go to a schema of their own, then the new ones are made."""
    engine = engine_of(url)
    try:
        with engine.connect() as db:
            db.execution_options(isolation_level="READ COMMITTED")
            with db.begin():
                lock_writers(db)
                aside = change_schema(db, packed, about, at)
    finally:
        engine.dispose()
    open_ledger(url.render_as_string(hide_password=False)).close()
    return aside


def change_schema(db: Connection, packed: zipfile.ZipFile, about: dict[str, Any], at: datetime) -> str:
    """Inside the caller's transaction: the tables that stand go aside, the backup's take their place."""
    aside = _schema_aside(db, f"before_{stamp(at).lower()}")
    upgrade.within(db, None, about["schema"])
    _rows(db, packed, about)
    upgrade.within(db, about["schema"], upgrade.NEWEST)
    return aside


def _schema_aside(db: Connection, name: str) -> str:
    standing = inspect(db).get_table_names()
    if not standing:
        return ""
    db.execute(text(f"CREATE SCHEMA {name}"))
    for table in standing:
        db.execute(text(f"ALTER TABLE {table} SET SCHEMA {name}"))
    return f"schema {name}"
