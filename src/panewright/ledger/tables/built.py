"""What really lies in a panel, version by version: a repair makes a new version."""

from __future__ import annotations

from decimal import Decimal

from sqlalchemy import CheckConstraint, ForeignKey, Index, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from panewright.ledger.tables.columns import Document, Prose
from panewright.ledger.tables.table import Row, Told


class BuiltRow(Told, Row):
    """A panel as it really is, with its checks afresh."""

    __tablename__ = "built"
    __table_args__ = (UniqueConstraint("serial_id", "version"), CheckConstraint("version > 0", "counted"))

    serial_id: Mapped[int] = mapped_column(ForeignKey("serial.id"))
    version: Mapped[int]
    program: Mapped[str]
    figures: Mapped[str] = mapped_column(Document())
    checks: Mapped[str] = mapped_column(Document())
    proven: Mapped[bool]


class SeatRow(Row):
    """Which cell sits where; `lot_id` alone where cells bear no marks."""

    __tablename__ = "seat"
    __table_args__ = (UniqueConstraint("built_id", "place"), Index(None, "lot_id", "built_id"))

    built_id: Mapped[int] = mapped_column(ForeignKey("built.id"))
    place: Mapped[str]
    lot_id: Mapped[int] = mapped_column(ForeignKey("lot.id"))
    cell_id: Mapped[int | None] = mapped_column(ForeignKey("cell.id"), index=True)


class JointRow(Row):
    """A joint that differs from a plain sound one, or whose maker is worth knowing."""

    __tablename__ = "joint"

    built_id: Mapped[int] = mapped_column(ForeignKey("built.id"), index=True)
    start: Mapped[str]
    end: Mapped[str]
    kind: Mapped[str]
    maker: Mapped[str] = mapped_column(Prose())
    note: Mapped[str] = mapped_column(Prose())


class UsedRow(Row):
    """How much of which lot went into a panel."""

    __tablename__ = "used"
    __table_args__ = (Index(None, "lot_id", "built_id"),)

    built_id: Mapped[int] = mapped_column(ForeignKey("built.id"), index=True)
    lot_id: Mapped[int] = mapped_column(ForeignKey("lot.id"))
    amount: Mapped[Decimal | None]
    unit: Mapped[str] = mapped_column(Prose())


class SubstitutionRow(Row):
    """Another part than the design names."""

    __tablename__ = "substitution"

    built_id: Mapped[int] = mapped_column(ForeignKey("built.id"), index=True)
    part: Mapped[str]
    planned: Mapped[str] = mapped_column(Prose())
    really: Mapped[str] = mapped_column(Prose())
    reason: Mapped[str] = mapped_column(Prose())


class DeviationRow(Row):
    """Something else that is not as designed."""

    __tablename__ = "deviation"

    built_id: Mapped[int] = mapped_column(ForeignKey("built.id"), index=True)
    what: Mapped[str]
    places: Mapped[str] = mapped_column(Prose())
    note: Mapped[str] = mapped_column(Prose())
