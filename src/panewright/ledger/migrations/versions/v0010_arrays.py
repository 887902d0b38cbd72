"""Arrays, every version of their text, and which panel lay where in them."""

import sqlalchemy as sa
from alembic import op

revision = "0010"
down_revision = "0009"


def upgrade() -> None:
    """Make the tables; no row is touched."""
    op.create_table(
        "arrays",
        sa.Column("name", sa.Text, nullable=False),
        _id(),
        *_told(),
        sa.UniqueConstraint("name"),
    )
    op.create_table("array_version", *_version(sa.Column("text", sa.Text, nullable=False)))
    day = sa.Column("day", sa.Date, nullable=False)
    op.create_table("array_laying", *_version(day, sa.Column("reason", sa.Text, nullable=False)))
    op.create_table(
        "array_place",
        sa.Column("laying_id", sa.Integer, sa.ForeignKey("array_laying.id"), nullable=False),
        *(sa.Column(name, sa.Integer, nullable=False) for name in ("string", "place")),
        sa.Column("panel", sa.Text, nullable=False),
        sa.Column("serial_id", sa.Integer, sa.ForeignKey("serial.id"), index=True),
        _id(),
        sa.UniqueConstraint("laying_id", "string", "place"),
        sa.UniqueConstraint("laying_id", "panel"),
    )


def _version(*more: sa.schema.SchemaItem) -> tuple[sa.schema.SchemaItem, ...]:
    return (
        sa.Column("array_id", sa.Integer, sa.ForeignKey("arrays.id"), nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        *more,
        _id(),
        *_told(),
        sa.UniqueConstraint("array_id", "version"),
        sa.CheckConstraint("version > 0", name="counted"),
    )


def _id() -> sa.Column[int]:
    return sa.Column("id", sa.Integer, primary_key=True)


def _told() -> tuple[sa.Column[str], sa.Column[object]]:
    at: sa.Column[object] = sa.Column("at", sa.DateTime(timezone=True), nullable=False)
    return sa.Column("who", sa.Text, nullable=False), at
