"""Whole tables out and in, whatever the schema: what a backup holds, and what an older one is made of.

Nothing here knows the tables of today: columns are asked of the database itself. Moments stand in UTC,
amounts as whole millionths, as the database keeps them.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from datetime import UTC, date, datetime
from typing import Any

from sqlalchemy import Connection, Date, DateTime, MetaData, Table, insert, select, text

_AT_ONCE = 5_000


def tables(db: Connection) -> tuple[Table, ...]:
    """The tables as they stand, each after those that it points at."""
    found = MetaData()
    found.reflect(db)
    return tuple(table for table in found.sorted_tables if table.name != "alembic_version")


def lines(db: Connection, table: Table) -> Iterator[str]:
    """A table as lines of JSON: the names of its columns, then a list for each row."""
    yield json.dumps([column.name for column in table.columns])
    rows = db.execution_options(yield_per=_AT_ONCE).execute(select(table).order_by(table.c.id))
    for row in rows:
        yield json.dumps([_out(value) for value in row], ensure_ascii=False)


def load(db: Connection, table: Table, written: Iterable[str]) -> int:
    """The rows of such lines into a table; how many."""
    each = iter(written)
    columns = [table.c[name] for name in json.loads(next(each))]
    count, rows = 0, []
    for line in each:
        values = zip(columns, json.loads(line), strict=True)
        rows.append({column.name: _in(db, column.type, value) for column, value in values})
        if len(rows) == _AT_ONCE:
            db.execute(insert(table), rows)
            count, rows = count + len(rows), []
    if rows:
        db.execute(insert(table), rows)
    return count + len(rows)


def count_on(db: Connection, made: Iterable[Table]) -> None:
    """PostgreSQL counts its numbers on by itself, and must be told where the rows given have come to."""
    if db.dialect.name != "postgresql":
        return
    for table in made:
        last = f"SELECT max(id) FROM {table.name}"
        if db.scalar(text(last)):
            db.execute(text(f"SELECT setval(pg_get_serial_sequence('{table.name}', 'id'), ({last}))"))


def _out(value: Any) -> Any:
    if isinstance(value, datetime):
        there = value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)
        return there.isoformat()
    return value.isoformat() if isinstance(value, date) else value


def _in(db: Connection, kind: Any, value: Any) -> Any:
    if value is None or not isinstance(kind, (DateTime, Date)):
        return value
    if isinstance(kind, DateTime):
        there = datetime.fromisoformat(value).astimezone(UTC)
        return there.replace(tzinfo=None) if db.dialect.name == "sqlite" else there
    return date.fromisoformat(value)
