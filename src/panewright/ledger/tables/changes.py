"""The journal: one row for each thing that was written, numbered without a gap."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy.orm import Mapped, mapped_column

from panewright.ledger.tables.table import Row


class ChangeRow(Row):
    """One thing written; `id` counts on from 1 without a gap, in the order in which things were confirmed."""

    __tablename__ = "change"

    kind: Mapped[str]
    key: Mapped[str]
    row: Mapped[int]
    at: Mapped[datetime]
    tap: Mapped[str | None] = mapped_column(unique=True)
