"""Panels by their serial, the steps done on them, and clocks that run."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal

from sqlalchemy import CheckConstraint, ForeignKey, Index, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from panewright.ledger.tables.columns import Prose
from panewright.ledger.tables.table import Row, Told


class SerialRow(Told, Row):
    """One panel: the `number`th of its order, and the design it was begun by."""

    __tablename__ = "serial"
    __table_args__ = (UniqueConstraint("order_id", "number"), CheckConstraint("number > 0", "counted"))

    serial: Mapped[str] = mapped_column(unique=True)
    order_id: Mapped[int] = mapped_column(ForeignKey("orders.id"))
    design_id: Mapped[int] = mapped_column(ForeignKey("design_made.id"), index=True)
    number: Mapped[int]


class StepRow(Told, Row):
    """A step ticked, or with `done` false ticked off again; the newest row of a step holds."""

    __tablename__ = "step_done"
    __table_args__ = (Index(None, "serial_id", "step", "id"), CheckConstraint("minutes >= 0", "minutes"))

    serial_id: Mapped[int] = mapped_column(ForeignKey("serial.id"))
    step: Mapped[str] = mapped_column(index=True)
    done: Mapped[bool]
    minutes: Mapped[Decimal | None]
    note: Mapped[str] = mapped_column(Prose())


class TimerRow(Told, Row):
    """A clock that runs for a step, such as a pot life; the newest row of a step holds."""

    __tablename__ = "timer"
    __table_args__ = (Index(None, "serial_id", "step", "id"),)

    serial_id: Mapped[int] = mapped_column(ForeignKey("serial.id"))
    step: Mapped[str]
    starts: Mapped[datetime]
    ends: Mapped[datetime | None] = mapped_column(index=True)
    stopped: Mapped[bool]
