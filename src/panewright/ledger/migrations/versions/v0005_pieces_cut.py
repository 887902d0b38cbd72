"""Cutting plans, what of them was cut, and the pieces that came of it."""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"


def upgrade() -> None:
    """Make the tables; no row is touched."""
    op.create_table(
        "cut_plan",
        sa.Column("text", sa.Text, nullable=False),
        _id(),
        *_told(),
    )
    op.create_table(
        "cut_done",
        sa.Column("plan_id", sa.Integer, sa.ForeignKey("cut_plan.id"), nullable=False),
        sa.Column("row", sa.Integer, nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("done", sa.Boolean, nullable=False),
        sa.Column("did", sa.Text, nullable=False),
        _id(),
        *_told(),
        sa.UniqueConstraint("plan_id", "row", "version"),
        sa.CheckConstraint("version > 0", name="counted"),
    )
    op.create_table(
        "cut_piece",
        sa.Column("done_id", sa.Integer, sa.ForeignKey("cut_done.id"), nullable=False, index=True),
        sa.Column("order_id", sa.Integer, sa.ForeignKey("orders.id"), nullable=False, index=True),
        sa.Column("item", sa.Text, nullable=False),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("length_mm", sa.Double, nullable=False),
        sa.Column("width_mm", sa.Double),
        sa.Column("count", sa.Integer, nullable=False),
        _id(),
    )


def _id() -> sa.Column[int]:
    return sa.Column("id", sa.Integer, primary_key=True)


def _told() -> tuple[sa.Column[str], sa.Column[object]]:
    at: sa.Column[object] = sa.Column("at", sa.DateTime(timezone=True), nullable=False)
    return sa.Column("who", sa.Text, nullable=False), at
