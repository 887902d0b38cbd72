"""One way to write: the rows, their line in the journal, and the tap that asked for it, all or nothing."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, func, insert, select

from panewright.errors import Problem, RecordError
from panewright.ledger.open import Ledger
from panewright.ledger.tables.changes import ChangeRow
from panewright.ledger.tables.table import Row


def write(
    ledger: Ledger,
    work: Callable[[Connection], int],
    *,
    kind: str,
    key: str,
    at: datetime,
    tap: str = "",
) -> int:
    """Do the work in one transaction; the id of the row that it gives.

    A page that lost the answer sends its tap again: what was written once is not written twice.
    """
    with ledger.writing() as db:
        done = _done(db, tap, kind, key) if tap else None
        if done is not None:
            return done
        row = work(db)
        note(db, kind=kind, key=key, row=row, at=at, tap=tap or None)
        return row


def _done(db: Connection, tap: str, kind: str, key: str) -> int | None:
    found = db.execute(
        select(ChangeRow.kind, ChangeRow.key, ChangeRow.row).where(ChangeRow.tap == tap)
    ).first()
    if found is None:
        return None
    if (found.kind, found.key) != (kind, key):
        cure = "Load the page again."
        raise RecordError([Problem("this tap was sent before, for something else.", cure, value=tap)])
    return int(found.row)


def note(db: Connection, **values: Any) -> None:
    """One line of the journal."""
    last = db.scalar(select(func.max(ChangeRow.id))) or 0
    db.execute(insert(ChangeRow).values(id=last + 1, **values))


def add(db: Connection, table: type[Row], **values: Any) -> int:
    """One more row; its id."""
    made = db.execute(insert(table).values(**values).returning(table.id))
    return made.scalar_one()


def add_all(db: Connection, table: type[Row], rows: list[dict[str, Any]]) -> None:
    """Many more rows, in one go."""
    if rows:
        db.execute(insert(table), rows)


def known(db: Connection, column: Any, value: str, what: str) -> int:
    """The id of the row that bears a name; `RecordError` where there is none."""
    found: int | None = db.scalar(select(column.class_.id).where(column == value))
    if found is None:
        raise unknown(what, value)
    return found


def unknown(what: str, value: str) -> RecordError:
    """The records hold no such thing."""
    return RecordError(
        [Problem("the records do not know it.", "Look how it is written.", key=what, value=value)]
    )
