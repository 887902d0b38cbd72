"""What was bought: cells, ribbon, solder, flux, silicone, glass, rails, by lot and batch."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from sqlalchemy import CheckConstraint, ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from panewright.ledger.tables.columns import Document, Prose
from panewright.ledger.tables.table import Row, Told


class LotRow(Told, Row):
    """A delivery by the mark that the shop wrote on it."""

    __tablename__ = "lot"

    mark: Mapped[str] = mapped_column(unique=True)


class LotDetailRow(Told, Row):
    """What is known of a lot; the newest version holds."""

    __tablename__ = "lot_detail"
    __table_args__ = (UniqueConstraint("lot_id", "version"), CheckConstraint("version > 0", "counted"))

    lot_id: Mapped[int] = mapped_column(ForeignKey("lot.id"))
    version: Mapped[int]
    kind: Mapped[str] = mapped_column(index=True)
    name: Mapped[str]
    batch: Mapped[str] = mapped_column(Prose(), index=True)
    supplier: Mapped[str] = mapped_column(Prose())
    received: Mapped[date | None]
    expires: Mapped[date | None] = mapped_column(index=True)
    price: Mapped[Decimal | None]
    currency: Mapped[str] = mapped_column(Prose())
    amount: Mapped[Decimal | None]
    unit: Mapped[str]
    note: Mapped[str] = mapped_column(Prose())


class CellRow(Told, Row):
    """One cell of a lot that bears a mark of its own; `figures` is JSON."""

    __tablename__ = "cell"
    __table_args__ = (UniqueConstraint("lot_id", "mark"),)

    lot_id: Mapped[int] = mapped_column(ForeignKey("lot.id"))
    mark: Mapped[str]
    figures: Mapped[str] = mapped_column(Document())
