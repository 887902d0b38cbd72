"""The database itself refuses to change or delete a row: nothing is overwritten, by whatever program.

The guards come off in two places, each inside one transaction: while the schema is upgraded, and while a
customer's details are erased on request.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy import Connection, inspect, text

_FREE = {"alembic_version"}
_WORDS = "the records are only ever added to"
_FUNCTION = f"""
CREATE OR REPLACE FUNCTION panewright_only_added() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN RAISE EXCEPTION '{_WORDS}'; END $$
"""


def put_on(db: Connection) -> None:
    """Guard every table."""
    if db.dialect.name == "postgresql":
        db.execute(text(_FUNCTION))
    for table in _tables(db):
        for doing in ("UPDATE", "DELETE"):
            db.execute(text(_guard(db, table, doing)))


def take_off(db: Connection) -> None:
    """Take the guards off, until `put_on`."""
    for table in _tables(db):
        for doing in ("UPDATE", "DELETE"):
            on = f" ON {table}" if db.dialect.name == "postgresql" else ""
            db.execute(text(f"DROP TRIGGER IF EXISTS {_name(table, doing)}{on}"))


@contextmanager
def off(db: Connection) -> Iterator[None]:
    """Without guards; where the body fails, the transaction is undone and they stand as before."""
    take_off(db)
    yield
    put_on(db)


def _tables(db: Connection) -> list[str]:
    return [name for name in sorted(inspect(db).get_table_names()) if name not in _FREE]


def _name(table: str, doing: str) -> str:
    return f"guard_{table}_{doing.lower()}"


def _guard(db: Connection, table: str, doing: str) -> str:
    head = f"CREATE TRIGGER {_name(table, doing)} BEFORE {doing} ON {table}"
    if db.dialect.name == "postgresql":
        return f"{head} FOR EACH STATEMENT EXECUTE FUNCTION panewright_only_added()"
    return f"{head} BEGIN SELECT RAISE(ABORT, '{_WORDS}'); END"


def unguarded(db: Connection) -> list[str]:
    """The tables that lack a guard."""
    wanted = "SELECT name FROM sqlite_master WHERE type = 'trigger'"
    if db.dialect.name == "postgresql":
        wanted = "SELECT tgname FROM pg_trigger WHERE NOT tgisinternal AND tgenabled <> 'D'"
    there = set(db.scalars(text(wanted)))
    return [t for t in _tables(db) if not {_name(t, "UPDATE"), _name(t, "DELETE")} <= there]
