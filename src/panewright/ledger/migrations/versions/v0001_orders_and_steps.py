"""Orders, designs, serials, steps, clocks, and the journal."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Make the tables. Their keys and checks are named by `NAMES` in `tables/table.py`."""
    _orders()
    _designs()
    _serials()
    _steps()
    op.create_table(
        "change",
        _id(),
        _text("kind"),
        _text("key"),
        sa.Column("row", sa.Integer, nullable=False),
        _moment("at"),
        sa.Column("tap", sa.Text, unique=True),
    )


def _orders() -> None:
    op.create_table("orders", _id(), sa.Column("number", sa.Text, nullable=False, unique=True), *_told())
    op.create_table(
        "order_version",
        _id(),
        _to("orders.id", "order_id"),
        sa.Column("version", sa.Integer, nullable=False),
        _text("text"),
        *_told(),
        sa.UniqueConstraint("order_id", "version"),
        sa.CheckConstraint("version > 0", name="counted"),
    )


def _designs() -> None:
    op.create_table(
        "document", _id(), sa.Column("digest", sa.Text, nullable=False, unique=True), _text("text")
    )
    op.create_table(
        "design_made",
        _id(),
        _to("order_version.id", "order_version_id", index=True),
        sa.Column("revision", sa.Text, nullable=False, index=True),
        _text("program"),
        _to("document.id", "shelf_id"),
        _text("figures"),
        _text("checks"),
        _text("serials"),
        sa.Column("proven", sa.Boolean, nullable=False),
        *_told(),
    )


def _serials() -> None:
    op.create_table(
        "serial",
        _id(),
        sa.Column("serial", sa.Text, nullable=False, unique=True),
        _to("orders.id", "order_id"),
        _to("design_made.id", "design_id", index=True),
        sa.Column("number", sa.Integer, nullable=False),
        *_told(),
    )


def _steps() -> None:
    op.create_table(
        "step_done",
        _id(),
        _to("serial.id", "serial_id"),
        sa.Column("step", sa.Text, nullable=False, index=True),
        sa.Column("done", sa.Boolean, nullable=False),
        sa.Column("minutes", sa.BigInteger),
        _text("note"),
        *_told(),
        sa.CheckConstraint("minutes >= 0", name="minutes"),
        sa.Index(None, "serial_id", "step", "id"),
    )
    op.create_table(
        "timer",
        _id(),
        _to("serial.id", "serial_id"),
        _text("step"),
        _moment("starts"),
        sa.Column("ends", sa.DateTime(timezone=True), index=True),
        sa.Column("stopped", sa.Boolean, nullable=False),
        *_told(),
        sa.Index(None, "serial_id", "step", "id"),
    )


def _id() -> sa.Column[int]:
    return sa.Column("id", sa.Integer, primary_key=True)


def _to(place: str, column: str, *, index: bool = False) -> sa.Column[int]:
    return sa.Column(column, sa.Integer, sa.ForeignKey(place), nullable=False, index=index)


def _text(name: str) -> sa.Column[str]:
    return sa.Column(name, sa.Text, nullable=False)


def _moment(name: str) -> sa.Column[object]:
    return sa.Column(name, sa.DateTime(timezone=True), nullable=False)


def _told() -> tuple[sa.Column[str], sa.Column[object]]:
    return _text("who"), _moment("at")
