"""What was promised of an order, and which quotes went out."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from sqlalchemy import CheckConstraint, ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from panewright.ledger.tables.columns import Prose
from panewright.ledger.tables.table import Row, Told


class PromiseRow(Told, Row):
    """Where an order stands: accepted, delivered or called off; and the day promised."""

    __tablename__ = "promise"
    __table_args__ = (UniqueConstraint("order_id", "version"), CheckConstraint("version > 0", "counted"))

    order_id: Mapped[int] = mapped_column(ForeignKey("orders.id"))
    version: Mapped[int]
    state: Mapped[str]
    promised: Mapped[date | None]
    note: Mapped[str] = mapped_column(Prose())


class QuoteSentRow(Told, Row):
    """A quote that went to a customer: which version of the order, its days, and what was to pay."""

    __tablename__ = "quote_sent"

    order_version_id: Mapped[int] = mapped_column(ForeignKey("order_version.id"), index=True)
    revision: Mapped[str]
    day: Mapped[date]
    until: Mapped[date]
    total: Mapped[Decimal]
    currency: Mapped[str]
    note: Mapped[str] = mapped_column(Prose())
