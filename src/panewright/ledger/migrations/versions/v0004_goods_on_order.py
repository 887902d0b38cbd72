"""Goods on order and receipts; what was promised of an order; quotes that went out."""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    """Make the tables; no row is touched."""
    _purchases()
    _promises()


def _purchases() -> None:
    op.create_table(
        "purchase",
        sa.Column("number", sa.Text, nullable=False, unique=True),
        sa.Column("supplier", sa.Text, nullable=False, index=True),
        sa.Column("day", sa.Date, nullable=False),
        sa.Column("note", sa.Text, nullable=False),
        _id(),
        *_told(),
    )
    op.create_table(
        "purchase_line",
        _to("purchase.id", "purchase_id"),
        sa.Column("number", sa.Integer, nullable=False),
        sa.Column("item", sa.Text, nullable=False, index=True),
        sa.Column("unit", sa.Text, nullable=False),
        sa.Column("amount", sa.BigInteger, nullable=False),
        sa.Column("price", sa.BigInteger),
        sa.Column("currency", sa.Text, nullable=False),
        sa.Column("expected", sa.Date),
        _id(),
        sa.UniqueConstraint("purchase_id", "number"),
        sa.CheckConstraint("number > 0", name="counted"),
        sa.CheckConstraint("amount > 0", name="something"),
    )
    op.create_table(
        "receipt",
        _to("purchase_line.id", "line_id"),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("amount", sa.BigInteger, nullable=False),
        _to("stock_movement.id", "movement_id", unique=True),
        _id(),
        *_told(),
        sa.UniqueConstraint("line_id", "version"),
        sa.CheckConstraint("version > 0", name="counted"),
        sa.CheckConstraint("amount > 0", name="something"),
    )
    op.create_table(
        "purchase_end",
        _to("purchase_line.id", "line_id", unique=True),
        sa.Column("reason", sa.Text, nullable=False),
        _id(),
        *_told(),
    )


def _promises() -> None:
    op.create_table(
        "promise",
        _to("orders.id", "order_id"),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("state", sa.Text, nullable=False),
        sa.Column("promised", sa.Date),
        sa.Column("note", sa.Text, nullable=False),
        _id(),
        *_told(),
        sa.UniqueConstraint("order_id", "version"),
        sa.CheckConstraint("version > 0", name="counted"),
    )
    op.create_table(
        "quote_sent",
        _to("order_version.id", "order_version_id", index=True),
        sa.Column("revision", sa.Text, nullable=False),
        sa.Column("day", sa.Date, nullable=False),
        sa.Column("until", sa.Date, nullable=False),
        sa.Column("total", sa.BigInteger, nullable=False),
        sa.Column("currency", sa.Text, nullable=False),
        sa.Column("note", sa.Text, nullable=False),
        _id(),
        *_told(),
    )


def _id() -> sa.Column[int]:
    return sa.Column("id", sa.Integer, primary_key=True)


def _to(place: str, column: str, *, index: bool = False, unique: bool | None = None) -> sa.Column[int]:
    return sa.Column(column, sa.Integer, sa.ForeignKey(place), nullable=False, index=index, unique=unique)


def _told() -> tuple[sa.Column[str], sa.Column[object]]:
    at: sa.Column[object] = sa.Column("at", sa.DateTime(timezone=True), nullable=False)
    return sa.Column("who", sa.Text, nullable=False), at
