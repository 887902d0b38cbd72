"""Boxes of kits as they are packed."""

from __future__ import annotations

from sqlalchemy import ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from panewright.ledger.tables.table import Row, Told


class PackedRow(Told, Row):
    """That a line of the packing list lies in a box, or with `done` false that it was taken out again.

    A box bears the serial of its panel; the newest row of a line holds.
    """

    __tablename__ = "packed"
    __table_args__ = (Index(None, "serial_id", "line", "id"),)

    serial_id: Mapped[int] = mapped_column(ForeignKey("serial.id"))
    line: Mapped[str]
    done: Mapped[bool]
