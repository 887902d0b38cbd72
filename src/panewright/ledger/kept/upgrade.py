"""From the schema that stands to the one this program knows, with the records intact.

SQLite changes a table by making it anew; with foreign keys on that would delete every row that points at
it. So they are off meanwhile, and looked over before anything is confirmed. A copy of the file is kept
beside it first. All steps are one transaction on both databases: the upgrade is done or it is not.
"""

from __future__ import annotations

import sqlite3
import threading
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sqlalchemy import Connection, Engine, inspect, text

from panewright.errors import Problem, RecordError
from panewright.ledger.tables import METADATA
from panewright.ledger.writers import lock_writers

if TYPE_CHECKING:
    from alembic.script import ScriptDirectory

NEWEST = "0010"
MIGRATIONS = Path(__file__).parents[1] / "migrations"
_ONE = threading.Lock()  # Alembic has one place in a process for what it is doing


def to_newest(engine: Engine) -> None:
    """Bring the schema up to date; nothing is done where it is already."""
    with engine.connect() as db:
        if standing(db) == NEWEST:
            return
    to(engine, NEWEST)


def to(engine: Engine, revision: str) -> None:
    """Bring the schema up to one revision."""
    with engine.connect() as db:
        if db.dialect.name == "sqlite":
            _keep_copy(db)
            db.rollback()
            _raw(db).execute("PRAGMA foreign_keys=OFF")
        try:
            _upgrade(db, revision)
        finally:
            if db.dialect.name == "sqlite":
                db.rollback()
                _raw(db).execute("PRAGMA foreign_keys=ON")


def standing(db: Connection) -> str | None:
    """The revision of the schema that stands; None where there is none yet."""
    if not inspect(db).has_table("alembic_version"):
        return None
    found: str | None = db.scalar(text("SELECT version_num FROM alembic_version"))
    return found


def _upgrade(db: Connection, revision: str) -> None:
    options: dict[str, Any] = {"panewright_begin": "BEGIN IMMEDIATE"}
    if db.dialect.name == "postgresql":
        options = {"isolation_level": "READ COMMITTED"}
    db.execution_options(**options)
    with db.begin():
        lock_writers(db)
        if (now := standing(db)) != revision:  # else somebody else was faster
            within(db, now, revision)


def within(db: Connection, now: str | None, revision: str) -> None:
    """The same inside a transaction of the caller's."""
    from panewright.ledger import guards

    guards.take_off(db)
    _run(db, now, revision)
    _look_over(db)
    guards.put_on(db)


def script() -> ScriptDirectory:
    """The steps, which lie in this package; Alembic's own settings file is not needed."""
    from alembic.script import ScriptDirectory

    return ScriptDirectory(str(MIGRATIONS))


def _run(db: Connection, now: str | None, revision: str) -> None:
    from alembic.config import Config
    from alembic.runtime.environment import EnvironmentContext

    ways = script()
    if now is not None and now not in {each.revision for each in ways.walk_revisions()}:
        cure = "Open them with that one, or a newer one; nothing was changed."
        raise RecordError([Problem(f"a newer Panewright wrote the records (schema {now}).", cure)])

    def steps(current: Any, _context: Any) -> Any:
        return ways._upgrade_revs(revision, current)

    with _ONE, EnvironmentContext(Config(), ways, fn=steps, destination_rev=revision) as environment:
        environment.configure(connection=db, target_metadata=METADATA, render_as_batch=True)
        environment.run_migrations()


def _look_over(db: Connection) -> None:
    """Every row that points at another still finds it."""
    if db.dialect.name == "sqlite" and (lost := db.exec_driver_sql("PRAGMA foreign_key_check").first()):
        raise RuntimeError(f"the upgrade would lose what a row of {lost[0]} points at; nothing was changed")


def _keep_copy(db: Connection) -> None:
    """The file as it was, beside it, whole even while others read."""
    now, place = standing(db), db.engine.url.database
    if now is None or not place:
        return
    copy = sqlite3.connect(f"{place}.before-{NEWEST}")
    try:
        _raw(db).backup(copy)
    finally:
        copy.close()


def _raw(db: Connection) -> sqlite3.Connection:
    found = db.connection.driver_connection
    if not isinstance(found, sqlite3.Connection):
        raise TypeError(f"asked of SQLite alone, got {found!r}")
    return found
