"""Instruments, their calibrations, what they showed, and the files that hold it raw."""

from __future__ import annotations

from datetime import date

from sqlalchemy import CheckConstraint, ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from panewright.ledger.tables.columns import Prose
from panewright.ledger.tables.table import Row, Told


class FileRow(Told, Row):
    """A file kept beside the records, under the digest of its bytes."""

    __tablename__ = "file"
    __table_args__ = (CheckConstraint("size >= 0", "size"),)

    sha256: Mapped[str] = mapped_column(unique=True)
    name: Mapped[str]
    media: Mapped[str]
    size: Mapped[int]


class AttachedRow(Told, Row):
    """A photograph, a report or another paper of a panel or an order."""

    __tablename__ = "attached"
    __table_args__ = (
        CheckConstraint("serial_id IS NOT NULL OR order_id IS NOT NULL", "of_something"),
        Index(None, "serial_id", "id"),
        Index(None, "order_id", "id"),
    )

    kind: Mapped[str]
    title: Mapped[str] = mapped_column(Prose())
    revision: Mapped[str] = mapped_column(Prose())
    file_id: Mapped[int] = mapped_column(ForeignKey("file.id"), index=True)
    serial_id: Mapped[int | None] = mapped_column(ForeignKey("serial.id"))
    order_id: Mapped[int | None] = mapped_column(ForeignKey("orders.id"))


class InstrumentRow(Told, Row):
    """A meter, tracer, balance or reference cell."""

    __tablename__ = "instrument"

    name: Mapped[str] = mapped_column(unique=True)
    kind: Mapped[str]
    number: Mapped[str] = mapped_column(Prose())


class CalibrationRow(Told, Row):
    """That an instrument was calibrated, or came with that day on its paper."""

    __tablename__ = "calibration"
    __table_args__ = (Index(None, "instrument_id", "day"),)

    instrument_id: Mapped[int] = mapped_column(ForeignKey("instrument.id"))
    day: Mapped[date]
    due: Mapped[date | None]
    file_id: Mapped[int | None] = mapped_column(ForeignKey("file.id"))
    note: Mapped[str] = mapped_column(Prose())


class ReadingRow(Told, Row):
    """What an instrument showed of a panel, a cell or a lot."""

    __tablename__ = "reading"
    __table_args__ = (
        CheckConstraint("serial_id IS NOT NULL OR cell_id IS NOT NULL OR lot_id IS NOT NULL", "of_something"),
        Index(None, "serial_id", "id"),
        Index(None, "instrument_id", "at"),
    )

    serial_id: Mapped[int | None] = mapped_column(ForeignKey("serial.id"))
    cell_id: Mapped[int | None] = mapped_column(ForeignKey("cell.id"), index=True)
    lot_id: Mapped[int | None] = mapped_column(ForeignKey("lot.id"), index=True)
    step: Mapped[str] = mapped_column(Prose())
    quantity: Mapped[str]
    value: Mapped[float]
    unit: Mapped[str]
    light_w_m2: Mapped[float | None]
    heat_c: Mapped[float | None]
    instrument_id: Mapped[int | None] = mapped_column(ForeignKey("instrument.id"))
    calibration_id: Mapped[int | None] = mapped_column(ForeignKey("calibration.id"), index=True)
    file_id: Mapped[int | None] = mapped_column(ForeignKey("file.id"))
    corrects_id: Mapped[int | None] = mapped_column(ForeignKey("reading.id"), unique=True)
    note: Mapped[str] = mapped_column(Prose())
