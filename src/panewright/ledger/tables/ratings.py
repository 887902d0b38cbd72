"""Panels rated at the bench, what was found wrong with them, and how accurate instruments are."""

from __future__ import annotations

from datetime import date

from sqlalchemy import ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from panewright.ledger.tables.columns import Document, Prose
from panewright.ledger.tables.table import Row, Told


class RatingRow(Told, Row):
    """A panel rated; the newest of a serial holds. `text` is JSON: everything that was told of it."""

    __tablename__ = "rating"
    __table_args__ = (Index(None, "serial_id", "id"),)

    serial_id: Mapped[int] = mapped_column(ForeignKey("serial.id"))
    day: Mapped[date]
    verdict: Mapped[str]
    label_w: Mapped[float]
    predicted_w: Mapped[float]
    power_w: Mapped[float | None]
    power_off_w: Mapped[float | None]
    curve_id: Mapped[int] = mapped_column(ForeignKey("file.id"), index=True)
    report_id: Mapped[int] = mapped_column(ForeignKey("file.id"), index=True)
    text: Mapped[str] = mapped_column(Document())


class FindingRow(Told, Row):
    """One thing told of what is wrong with a panel: found, measured to tell more, or mended.

    `what`: found, told, mended. `text` is JSON.
    """

    __tablename__ = "finding"
    __table_args__ = (Index(None, "serial_id", "id"),)

    serial_id: Mapped[int] = mapped_column(ForeignKey("serial.id"))
    rating_id: Mapped[int | None] = mapped_column(ForeignKey("rating.id"), index=True)
    what: Mapped[str]
    said: Mapped[str] = mapped_column(Prose())
    text: Mapped[str] = mapped_column(Document())


class AccuracyRow(Told, Row):
    """What is written of an instrument's accuracy, as it was typed; the newest holds."""

    __tablename__ = "accuracy"
    __table_args__ = (Index(None, "instrument_id", "id"),)

    instrument_id: Mapped[int] = mapped_column(ForeignKey("instrument.id"))
    within: Mapped[str] = mapped_column(Prose())
    certificate: Mapped[str] = mapped_column(Prose())
    digit: Mapped[str] = mapped_column(Prose())
    at_stc: Mapped[str] = mapped_column(Prose())
