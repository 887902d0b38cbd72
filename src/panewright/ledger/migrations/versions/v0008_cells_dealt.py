"""Deals of a lot's cells to an order's panels, what was changed of them, and cells as they are laid."""

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"


def upgrade() -> None:
    """Make the tables; no row is touched."""
    op.create_table(
        "deal",
        sa.Column("lot_id", sa.Integer, sa.ForeignKey("lot.id"), nullable=False, index=True),
        sa.Column("order_id", sa.Integer, sa.ForeignKey("orders.id"), nullable=False, index=True),
        *(sa.Column(name, sa.Text, nullable=False) for name in ("said", "text")),
        _id(),
        *_told(),
    )
    op.create_table(
        "deal_swap",
        sa.Column("deal_id", sa.Integer, sa.ForeignKey("deal.id"), nullable=False),
        *(sa.Column(name, sa.Integer, nullable=False) for name in ("version", "panel", "place")),
        *(sa.Column(name, sa.Text, nullable=False) for name in ("mark_out", "mark_in", "reason", "figures")),
        _id(),
        *_told(),
        sa.UniqueConstraint("deal_id", "version"),
        sa.CheckConstraint("version > 0", name="counted"),
    )
    op.create_table(
        "deal_panel",
        sa.Column("deal_id", sa.Integer, sa.ForeignKey("deal.id"), nullable=False),
        sa.Column("panel", sa.Integer, nullable=False),
        sa.Column("serial_id", sa.Integer, sa.ForeignKey("serial.id"), nullable=False, index=True),
        _id(),
        *_told(),
        sa.Index(None, "deal_id", "panel"),
    )
    op.create_table(
        "laid",
        sa.Column("serial_id", sa.Integer, sa.ForeignKey("serial.id"), nullable=False),
        sa.Column("place", sa.Integer, nullable=False),
        sa.Column("lot_id", sa.Integer, sa.ForeignKey("lot.id"), nullable=False),
        *(sa.Column(name, sa.Text, nullable=False) for name in ("mark", "what", "reason")),
        sa.Column("deal_id", sa.Integer, sa.ForeignKey("deal.id")),
        _id(),
        *_told(),
        sa.Index(None, "serial_id", "place"),
        sa.Index(None, "lot_id", "mark"),
    )


def _id() -> sa.Column[int]:
    return sa.Column("id", sa.Integer, primary_key=True)


def _told() -> tuple[sa.Column[str], sa.Column[object]]:
    at: sa.Column[object] = sa.Column("at", sa.DateTime(timezone=True), nullable=False)
    return sa.Column("who", sa.Text, nullable=False), at
