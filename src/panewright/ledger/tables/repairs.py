"""What came back, and what was done about it."""

from __future__ import annotations

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from panewright.ledger.tables.columns import Prose
from panewright.ledger.tables.table import Row, Told


class ClaimRow(Told, Row):
    """What a customer says is wrong with a panel."""

    __tablename__ = "claim"

    serial_id: Mapped[int] = mapped_column(ForeignKey("serial.id"), index=True)
    words: Mapped[str] = mapped_column(Prose())


class RepairRow(Told, Row):
    """What was done to a panel after it was finished."""

    __tablename__ = "repair"

    serial_id: Mapped[int] = mapped_column(ForeignKey("serial.id"), index=True)
    claim_id: Mapped[int | None] = mapped_column(ForeignKey("claim.id"), index=True)
    words: Mapped[str] = mapped_column(Prose())
