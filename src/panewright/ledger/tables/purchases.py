"""Goods on order: what was ordered from whom, what came in of it, and what will not come."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from sqlalchemy import CheckConstraint, ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from panewright.ledger.tables.columns import Prose
from panewright.ledger.tables.table import Row, Told


class PurchaseRow(Told, Row):
    """Goods ordered from one supplier, by the number that the shop gave them."""

    __tablename__ = "purchase"

    number: Mapped[str] = mapped_column(unique=True)
    supplier: Mapped[str] = mapped_column(index=True)
    day: Mapped[date]
    note: Mapped[str] = mapped_column(Prose())


class PurchaseLineRow(Row):
    """One part of it; the price is of one unit."""

    __tablename__ = "purchase_line"
    __table_args__ = (
        UniqueConstraint("purchase_id", "number"),
        CheckConstraint("number > 0", "counted"),
        CheckConstraint("amount > 0", "something"),
    )

    purchase_id: Mapped[int] = mapped_column(ForeignKey("purchase.id"))
    number: Mapped[int]
    item: Mapped[str] = mapped_column(index=True)
    unit: Mapped[str]
    amount: Mapped[Decimal]
    price: Mapped[Decimal | None]
    currency: Mapped[str] = mapped_column(Prose())
    expected: Mapped[date | None]


class ReceiptRow(Told, Row):
    """So much of a line came in; the movement that put it on the shelf says the rest."""

    __tablename__ = "receipt"
    __table_args__ = (
        UniqueConstraint("line_id", "version"),
        CheckConstraint("version > 0", "counted"),
        CheckConstraint("amount > 0", "something"),
    )

    line_id: Mapped[int] = mapped_column(ForeignKey("purchase_line.id"))
    version: Mapped[int]
    amount: Mapped[Decimal]
    movement_id: Mapped[int] = mapped_column(ForeignKey("stock_movement.id"), unique=True)


class PurchaseEndRow(Told, Row):
    """What had not come of a line will not come; once only."""

    __tablename__ = "purchase_end"

    line_id: Mapped[int] = mapped_column(ForeignKey("purchase_line.id"), unique=True)
    reason: Mapped[str] = mapped_column(Prose())
