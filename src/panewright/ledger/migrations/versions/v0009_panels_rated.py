"""Panels rated, what was found wrong with them, and how accurate instruments are."""

import sqlalchemy as sa
from alembic import op

revision = "0009"
down_revision = "0008"


def upgrade() -> None:
    """Make the tables; no row is touched."""
    op.create_table(
        "rating",
        _serial(),
        sa.Column("day", sa.Date, nullable=False),
        sa.Column("verdict", sa.Text, nullable=False),
        *(sa.Column(name, sa.Double, nullable=False) for name in ("label_w", "predicted_w")),
        *(sa.Column(name, sa.Double) for name in ("power_w", "power_off_w")),
        *(_file(name) for name in ("curve_id", "report_id")),
        sa.Column("text", sa.Text, nullable=False),
        _id(),
        *_told(),
        sa.Index(None, "serial_id", "id"),
    )
    op.create_table(
        "finding",
        _serial(),
        sa.Column("rating_id", sa.Integer, sa.ForeignKey("rating.id"), index=True),
        *(sa.Column(name, sa.Text, nullable=False) for name in ("what", "said", "text")),
        _id(),
        *_told(),
        sa.Index(None, "serial_id", "id"),
    )
    op.create_table(
        "accuracy",
        sa.Column("instrument_id", sa.Integer, sa.ForeignKey("instrument.id"), nullable=False),
        *(sa.Column(name, sa.Text, nullable=False) for name in ("within", "certificate", "digit", "at_stc")),
        _id(),
        *_told(),
        sa.Index(None, "instrument_id", "id"),
    )


def _serial() -> sa.Column[int]:
    return sa.Column("serial_id", sa.Integer, sa.ForeignKey("serial.id"), nullable=False)


def _file(name: str) -> sa.Column[int]:
    return sa.Column(name, sa.Integer, sa.ForeignKey("file.id"), nullable=False, index=True)


def _id() -> sa.Column[int]:
    return sa.Column("id", sa.Integer, primary_key=True)


def _told() -> tuple[sa.Column[str], sa.Column[object]]:
    at: sa.Column[object] = sa.Column("at", sa.DateTime(timezone=True), nullable=False)
    return sa.Column("who", sa.Text, nullable=False), at
