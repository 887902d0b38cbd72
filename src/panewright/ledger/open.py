"""The records opened: a file of SQLite, or a database of PostgreSQL by its URL.

SQLite is asked to sync every commit to the disk before it is confirmed, to keep foreign keys, and to let
others read while one writes. On both databases one writes at a time: a shop has a handful of people,
and then the journal's numbers are in the order in which things were confirmed.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy import URL, Connection, Engine, create_engine, event, make_url
from sqlalchemy.exc import ArgumentError, DBAPIError, IntegrityError, OperationalError, StatementError

from panewright.errors import AwayError, PanewrightError, Problem, RecordError
from panewright.ledger.disk import make_folder
from panewright.ledger.kept import upgrade
from panewright.ledger.writers import lock_writers

_BUSY_S = 30
#: SQLite takes its one writer's lock at the start; PostgreSQL must look afresh once the lock is ours.
_WRITING: dict[str, dict[str, Any]] = {
    "sqlite": {"panewright_begin": "BEGIN IMMEDIATE"},
    "postgresql": {"isolation_level": "READ COMMITTED"},
}
_PRAGMAS = ("foreign_keys=ON", "journal_mode=WAL", "synchronous=FULL", "secure_delete=ON")


@dataclass(frozen=True, slots=True)
class Ledger:
    """The shop's records, open."""

    engine: Engine
    files: Path | None  #: where raw readings, photographs and reports lie

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """The records as they stand at one moment, however many questions are asked."""
        with _told_plainly(), self.engine.connect() as db, db.begin():
            yield db

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """One transaction: all of it or nothing; others wait their turn."""
        with _told_plainly(), self.engine.connect() as db:
            db.execution_options(**_WRITING[db.dialect.name])
            with db.begin():
                lock_writers(db)
                yield db

    def close(self) -> None:
        """Close every connection."""
        self.engine.dispose()


def open_ledger(where: str | Path, *, files: Path | None = None) -> Ledger:
    """The records at a path or a URL; made where there are none, brought up to date where they are older.

    Files lie in the folder `files` beside a file of SQLite, if none is named.
    """
    url = url_of(where)
    if files is None and url.get_backend_name() == "sqlite" and url.database:
        files = Path(url.database).parent / "files"
    engine = engine_of(url)
    try:
        with _told_plainly():
            upgrade.to_newest(engine)
    except BaseException:
        engine.dispose()
        raise
    return Ledger(engine, files)


def engine_of(url: URL) -> Engine:
    """Connections with what both databases must be told."""
    if url.get_backend_name() != "sqlite":
        return create_engine(url, isolation_level="REPEATABLE READ", pool_pre_ping=True)
    if url.database:
        _make_folder(Path(url.database).parent)
    engine = create_engine(url, connect_args={"timeout": _BUSY_S})
    event.listen(engine, "connect", _set_up)
    event.listen(engine, "begin", _begin)
    return engine


def _set_up(connection: sqlite3.Connection, _record: Any) -> None:
    connection.isolation_level = None  # the driver's own way of beginning would let two writers meet
    for pragma in _PRAGMAS:
        connection.execute(f"PRAGMA {pragma}")


def _begin(db: Connection) -> None:
    db.exec_driver_sql(db.get_execution_options().get("panewright_begin", "BEGIN"))


def url_of(where: str | Path) -> URL:
    """A path is a file of SQLite; PostgreSQL is spoken to by psycopg."""
    if isinstance(where, Path) or "://" not in where:
        return URL.create("sqlite", database=str(where))
    try:
        url = make_url(where)
    except (ArgumentError, ValueError) as reason:  # what stands before the @ may be a password
        raise _no_database(where.rpartition("@")[2]) from reason
    if url.get_backend_name() == "postgresql":
        return url.set(drivername="postgresql+psycopg")
    if url.get_backend_name() != "sqlite":
        raise _no_database(url.render_as_string())
    return url


def _make_folder(folder: Path) -> None:
    try:
        make_folder(folder)
    except OSError as reason:
        cure = "Name a folder that can be written."
        problem = Problem(f"cannot be made: {reason.strerror}.", cure, key="folder", value=str(folder))
        raise RecordError([problem]) from reason


def _no_database(where: str) -> RecordError:
    cure = "Write the path of a file, or postgresql://user@host/name."
    return RecordError([Problem("no records can be kept there.", cure, key="records", value=where)])


@contextmanager
def _told_plainly() -> Iterator[None]:
    """What the library wraps comes out as what it was; a database that does not answer is told in words."""
    try:
        yield
    except OverflowError as large:
        cure = "Write a smaller one."
        raise RecordError([Problem("the records cannot keep so large a number.", cure)]) from large
    except IntegrityError as refused:
        said = str(refused.orig).strip().partition("\n")[0]
        problem = Problem(f"the records cannot keep it: {said}.", "Mend what was written.", key="records")
        raise RecordError([problem]) from refused
    except StatementError as wrapped:
        if isinstance(wrapped.orig, (PanewrightError, ValueError)):
            raise wrapped.orig from None
        if isinstance(wrapped, DBAPIError):
            said = str(wrapped.orig).strip().partition("\n")[0]
            cure = "See that the disk has room and that the database runs; nothing was half written."
            problem = Problem(f"the records do not answer: {said}.", cure, key="records")
            away = wrapped.connection_invalidated or isinstance(wrapped, OperationalError)
            raise (AwayError if away else RecordError)([problem]) from wrapped
        raise
