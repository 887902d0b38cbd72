"""Cells dealt to an order's panels, what was changed of that, and cells as they are laid."""

from __future__ import annotations

from sqlalchemy import CheckConstraint, ForeignKey, Index, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from panewright.ledger.tables.columns import Document, Prose
from panewright.ledger.tables.table import Row, Told


class DealRow(Told, Row):
    """Which cell of a lot goes where in panels of an order, as it was matched; `text` is JSON."""

    __tablename__ = "deal"

    lot_id: Mapped[int] = mapped_column(ForeignKey("lot.id"), index=True)
    order_id: Mapped[int] = mapped_column(ForeignKey("orders.id"), index=True)
    said: Mapped[str] = mapped_column(Prose())
    text: Mapped[str] = mapped_column(Document())


class DealSwapRow(Told, Row):
    """Another cell at one place of a deal; `figures` is JSON: what that panel then gives."""

    __tablename__ = "deal_swap"
    __table_args__ = (UniqueConstraint("deal_id", "version"), CheckConstraint("version > 0", "counted"))

    deal_id: Mapped[int] = mapped_column(ForeignKey("deal.id"))
    version: Mapped[int]
    panel: Mapped[int]
    place: Mapped[int]
    mark_out: Mapped[str] = mapped_column(Prose())
    mark_in: Mapped[str] = mapped_column(Prose())
    reason: Mapped[str] = mapped_column(Prose())
    figures: Mapped[str] = mapped_column(Document())


class DealPanelRow(Told, Row):
    """Which serial a panel of a deal is; the newest row of a panel holds."""

    __tablename__ = "deal_panel"
    __table_args__ = (Index(None, "deal_id", "panel"),)

    deal_id: Mapped[int] = mapped_column(ForeignKey("deal.id"))
    panel: Mapped[int]
    serial_id: Mapped[int] = mapped_column(ForeignKey("serial.id"), index=True)


class LaidRow(Told, Row):
    """A cell laid at a place of a serial, lifted again, or broken there; the newest row of a place holds."""

    __tablename__ = "laid"
    __table_args__ = (Index(None, "serial_id", "place"), Index(None, "lot_id", "mark"))

    serial_id: Mapped[int] = mapped_column(ForeignKey("serial.id"))
    place: Mapped[int]
    lot_id: Mapped[int] = mapped_column(ForeignKey("lot.id"))
    mark: Mapped[str] = mapped_column(Prose())
    what: Mapped[str]
    reason: Mapped[str] = mapped_column(Prose())
    deal_id: Mapped[int | None] = mapped_column(ForeignKey("deal.id"))
