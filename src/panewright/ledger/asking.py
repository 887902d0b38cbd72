"""One way to ask: what a query finds becomes frozen records; its columns stand in the order of the fields."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeAlias, TypeVar

from sqlalchemy import Connection, Select

Wanted: TypeAlias = Select[*tuple[Any, ...]]
Record = TypeVar("Record")


def all_of(db: Connection, wanted: Wanted, record: Callable[..., Record]) -> tuple[Record, ...]:
    """Every row as a record."""
    return tuple(record(*row) for row in db.execute(wanted))


def first_of(db: Connection, wanted: Wanted, record: Callable[..., Record]) -> Record | None:
    """The first row as a record; None where there is none."""
    found = db.execute(wanted.limit(1)).first()
    return None if found is None else record(*found)


def one_of(db: Connection, wanted: Wanted, record: Callable[..., Record]) -> Record:
    """The one row there must be."""
    return record(*db.execute(wanted).one())
