"""Arrays, every version of their text, and which panel lay where in them, laying by laying."""

from __future__ import annotations

from datetime import date

from sqlalchemy import CheckConstraint, ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from panewright.ledger.tables.columns import Document, Prose
from panewright.ledger.tables.table import Row, Told


class ArrayRow(Told, Row):
    """An array by its name; all else of it is in its versions."""

    __tablename__ = "arrays"  # without its s a word of SQL's own

    name: Mapped[str] = mapped_column(unique=True)


class ArrayVersionRow(Told, Row):
    """An array's text as somebody saved it."""

    __tablename__ = "array_version"
    __table_args__ = (UniqueConstraint("array_id", "version"), CheckConstraint("version > 0", "counted"))

    array_id: Mapped[int] = mapped_column(ForeignKey("arrays.id"))
    version: Mapped[int]
    text: Mapped[str] = mapped_column(Document())


class ArrayLayingRow(Told, Row):
    """All panels of an array as they lie from a day on; the newest version holds."""

    __tablename__ = "array_laying"
    __table_args__ = (UniqueConstraint("array_id", "version"), CheckConstraint("version > 0", "counted"))

    array_id: Mapped[int] = mapped_column(ForeignKey("arrays.id"))
    version: Mapped[int]
    day: Mapped[date]
    reason: Mapped[str] = mapped_column(Prose())


class ArrayPlaceRow(Row):
    """One panel of a laying: its string, its place in that, and its serial where it is one of the shop's."""

    __tablename__ = "array_place"
    __table_args__ = (
        UniqueConstraint("laying_id", "string", "place"),
        UniqueConstraint("laying_id", "panel"),
    )

    laying_id: Mapped[int] = mapped_column(ForeignKey("array_laying.id"))
    string: Mapped[int]
    place: Mapped[int]
    panel: Mapped[str]
    serial_id: Mapped[int | None] = mapped_column(ForeignKey("serial.id"), index=True)
