"""A customer's details erased on request, while the technical record of every panel stays.

This is the one place where rows are changed. Name, address, mail and phone are blanked in every version,
and taken out of the texts of the customer's orders, designs, claims and repairs. A row says that it was
done. In a file of SQLite the old bytes are overwritten, and the file is written anew without them.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, select, text, update

from panewright.ledger import guards
from panewright.ledger.customers import orders_of
from panewright.ledger.open import Ledger
from panewright.ledger.tables.customers import CustomerRow, DetailRow, ErasureRow
from panewright.ledger.tables.orders import DesignRow, OrderVersionRow
from panewright.ledger.tables.readings import AttachedRow, FileRow
from panewright.ledger.tables.repairs import ClaimRow, RepairRow
from panewright.ledger.tables.serials import SerialRow, StepRow
from panewright.ledger.writing import add, known, write

ERASED = "(erased)"
_TOUCHED = (
    "customer_detail",
    "order_version",
    "design_made",
    "claim",
    "repair",
    "step_done",
    "attached",
    "file",
)
_FIELDS = ("name", "address", "mail", "phone")


@dataclass(frozen=True, slots=True)
class Erased:
    """What was done, and which files a person should look at: no program reads what stands in a picture."""

    mark: str
    texts: int  #: in which something was taken out
    files: tuple[str, ...]  #: names of the papers of the customer's orders and panels


def erase_customer(ledger: Ledger, mark: str, *, reason: str, by: str, at: datetime, tap: str = "") -> Erased:
    """Erase a customer's details. Backups made before still hold them."""
    changed: list[int] = []

    def work(db: Connection) -> int:
        key = known(db, CustomerRow.mark, mark, "customer")
        with guards.off(db):
            changed.append(_take_out(db, key))
            blank = dict.fromkeys(_FIELDS, "")
            db.execute(update(DetailRow).where(DetailRow.customer_id == key).values(**blank))
        return add(db, ErasureRow, customer_id=key, reason=reason, who=by, at=at)

    write(ledger, work, kind="erased", key=mark, at=at, tap=tap)
    _overwrite(ledger)
    with ledger.reading() as db:
        return Erased(mark, sum(changed), _papers(db, known(db, CustomerRow.mark, mark, "customer")))


def _take_out(db: Connection, key: int) -> int:
    """Take the customer's words out of every text of their orders and panels; out of how many."""
    words = _words(db, key)
    orders = orders_of(db, key)
    panels = select(SerialRow.id).where(SerialRow.order_id.in_(orders))
    versions = select(OrderVersionRow.id).where(OrderVersionRow.order_id.in_(orders))
    papers = select(AttachedRow.file_id).where(
        AttachedRow.serial_id.in_(panels) | AttachedRow.order_id.in_(orders)
    )
    texts: tuple[tuple[Any, Any], ...] = (
        (OrderVersionRow.text, OrderVersionRow.order_id.in_(orders)),
        (DesignRow.figures, DesignRow.order_version_id.in_(versions)),
        (DesignRow.checks, DesignRow.order_version_id.in_(versions)),
        (ClaimRow.words, ClaimRow.serial_id.in_(panels)),
        (RepairRow.words, RepairRow.serial_id.in_(panels)),
        (StepRow.note, StepRow.serial_id.in_(panels)),
        (AttachedRow.title, AttachedRow.serial_id.in_(panels) | AttachedRow.order_id.in_(orders)),
        (FileRow.name, FileRow.id.in_(papers)),
    )
    return sum(_replace(db, column, mine, words) for column, mine in texts) if words else 0


def _words(db: Connection, key: int) -> re.Pattern[str] | None:
    """Every word of the customer's details, as typed and as TOML and JSON write it."""
    columns = [getattr(DetailRow, field) for field in _FIELDS]
    told = {
        value for row in db.execute(select(*columns).where(DetailRow.customer_id == key)) for value in row
    }
    said = {line.strip() for value in told for line in (value, *value.splitlines())} - {""}
    forms = {
        each
        for one in said
        for each in (one, json.dumps(one)[1:-1], json.dumps(one, ensure_ascii=False)[1:-1])
    }
    longest = sorted(forms, key=lambda each: (-len(each), each))
    if not longest:
        return None
    return re.compile(rf"(?<!\w)(?:{'|'.join(map(re.escape, longest))})(?!\w)", re.IGNORECASE)


def _replace(db: Connection, column: Any, mine: Any, words: re.Pattern[str]) -> int:
    table, count = column.class_, 0
    for key, before in db.execute(select(table.id, column).where(mine)).all():
        after = words.sub(ERASED, before)
        if after != before:
            db.execute(update(table).where(table.id == key).values({column.key: after}))
            count += 1
    return count


def _overwrite(ledger: Ledger) -> None:
    """The database lets go of the bytes of rows as they were."""
    if ledger.engine.dialect.name == "sqlite":
        with ledger.engine.connect() as db:
            raw: Any = db.connection.driver_connection
            raw.execute("VACUUM")
            raw.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        return
    with ledger.engine.connect().execution_options(isolation_level="AUTOCOMMIT") as db:
        for table in _TOUCHED:
            db.execute(text(f"VACUUM FULL {table}"))


def _papers(db: Connection, key: int) -> tuple[str, ...]:
    orders = orders_of(db, key)
    panels = select(SerialRow.id).where(SerialRow.order_id.in_(orders))
    mine = AttachedRow.serial_id.in_(panels) | AttachedRow.order_id.in_(orders)
    wanted = select(FileRow.name).join(AttachedRow, AttachedRow.file_id == FileRow.id).where(mine)
    return tuple(db.scalars(wanted.order_by(FileRow.id)))
