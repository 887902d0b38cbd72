"""What comes in and goes out, and what is left of bars, sheets and spools."""

from __future__ import annotations

from decimal import Decimal

from sqlalchemy import CheckConstraint, ForeignKey, Index, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from panewright.ledger.tables.columns import Prose
from panewright.ledger.tables.table import Row, Told


class MovementRow(Told, Row):
    """So much more (or, below zero, less) of an item, and why."""

    __tablename__ = "stock_movement"
    __table_args__ = (Index(None, "item", "unit", "lot_id", "amount"), Index(None, "reason", "id"))

    item: Mapped[str]
    amount: Mapped[Decimal]
    unit: Mapped[str]
    reason: Mapped[str]
    lot_id: Mapped[int | None] = mapped_column(ForeignKey("lot.id"), index=True)
    serial_id: Mapped[int | None] = mapped_column(ForeignKey("serial.id"), index=True)
    order_id: Mapped[int | None] = mapped_column(ForeignKey("orders.id"), index=True)
    note: Mapped[str] = mapped_column(Prose())


class RemnantRow(Told, Row):
    """A piece left over; `width_mm` for sheets only."""

    __tablename__ = "remnant"
    __table_args__ = (CheckConstraint("length_mm > 0", "length"),)

    mark: Mapped[str] = mapped_column(unique=True)
    item: Mapped[str] = mapped_column(index=True)
    length_mm: Mapped[float]
    width_mm: Mapped[float | None]
    lot_id: Mapped[int | None] = mapped_column(ForeignKey("lot.id"))


class RemnantStateRow(Told, Row):
    """That a remnant was used up or thrown away, or lies there again: the newest version holds."""

    __tablename__ = "remnant_state"
    __table_args__ = (UniqueConstraint("remnant_id", "version"), CheckConstraint("version > 0", "counted"))

    remnant_id: Mapped[int] = mapped_column(ForeignKey("remnant.id"))
    version: Mapped[int]
    state: Mapped[str]
    serial_id: Mapped[int | None] = mapped_column(ForeignKey("serial.id"))


class HoursRow(Told, Row):
    """Time spent beside the ticked steps; a correction is one more row, below zero where it takes away."""

    __tablename__ = "hours"

    order_id: Mapped[int | None] = mapped_column(ForeignKey("orders.id"), index=True)
    serial_id: Mapped[int | None] = mapped_column(ForeignKey("serial.id"), index=True)
    step: Mapped[str] = mapped_column(index=True)
    minutes: Mapped[Decimal]
    note: Mapped[str] = mapped_column(Prose())
