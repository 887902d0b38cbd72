"""Who ordered. Details are apart from the technical record, so that they can be erased on request."""

from __future__ import annotations

from sqlalchemy import CheckConstraint, ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from panewright.ledger.tables.columns import Prose
from panewright.ledger.tables.table import Row, Told


class CustomerRow(Told, Row):
    """A customer by a mark of the shop's own, which tells nothing of the person."""

    __tablename__ = "customer"

    mark: Mapped[str] = mapped_column(unique=True)


class DetailRow(Told, Row):
    """What the shop knows of a customer; the newest version holds. Blank once it is erased."""

    __tablename__ = "customer_detail"
    __table_args__ = (UniqueConstraint("customer_id", "version"), CheckConstraint("version > 0", "counted"))

    customer_id: Mapped[int] = mapped_column(ForeignKey("customer.id"))
    version: Mapped[int]
    name: Mapped[str] = mapped_column(Prose())
    address: Mapped[str] = mapped_column(Prose())
    mail: Mapped[str] = mapped_column(Prose())
    phone: Mapped[str] = mapped_column(Prose())


class ErasureRow(Told, Row):
    """That a customer's details were erased, and why."""

    __tablename__ = "erasure"

    customer_id: Mapped[int] = mapped_column(ForeignKey("customer.id"), index=True)
    reason: Mapped[str] = mapped_column(Prose())


class OrderCustomerRow(Told, Row):
    """Whose an order is; the newest row holds."""

    __tablename__ = "order_customer"

    order_id: Mapped[int] = mapped_column(ForeignKey("orders.id"), index=True)
    customer_id: Mapped[int] = mapped_column(ForeignKey("customer.id"), index=True)
