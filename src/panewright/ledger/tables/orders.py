"""Orders, every version of their text, and the designs made of them."""

from __future__ import annotations

from sqlalchemy import CheckConstraint, ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from panewright.ledger.tables.columns import Document
from panewright.ledger.tables.table import Row, Told


class OrderRow(Told, Row):
    """An order by its number; all else of it is in its versions."""

    __tablename__ = "orders"

    number: Mapped[str] = mapped_column(unique=True)


class OrderVersionRow(Told, Row):
    """An order's text as somebody saved it."""

    __tablename__ = "order_version"
    __table_args__ = (UniqueConstraint("order_id", "version"), CheckConstraint("version > 0", "counted"))

    order_id: Mapped[int] = mapped_column(ForeignKey("orders.id"))
    version: Mapped[int]
    text: Mapped[str] = mapped_column(Document())


class DocumentRow(Row):
    """A long text that many rows share, such as the shelf as it was."""

    __tablename__ = "document"

    digest: Mapped[str] = mapped_column(unique=True)
    text: Mapped[str] = mapped_column(Document())


class DesignRow(Told, Row):
    """A design with what it was made of: one version of an order, the shelf, the program."""

    __tablename__ = "design_made"

    order_version_id: Mapped[int] = mapped_column(ForeignKey("order_version.id"), index=True)
    revision: Mapped[str] = mapped_column(index=True)
    program: Mapped[str]
    shelf_id: Mapped[int] = mapped_column(ForeignKey("document.id"))
    figures: Mapped[str] = mapped_column(Document())
    checks: Mapped[str] = mapped_column(Document())
    serials: Mapped[str] = mapped_column(Document())
    proven: Mapped[bool]
