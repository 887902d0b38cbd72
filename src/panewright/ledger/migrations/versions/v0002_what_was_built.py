"""Customers, lots and cells, what was really built, readings and files, stock, hours, repairs.

A panel's number in its order becomes unique: on SQLite the table of serials is made anew for it.
"""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Make the tables."""
    _customers()
    _lots()
    _built()
    _deviating()
    _files()
    _readings()
    _stock()
    _remnants()
    _hours()
    _repairs()
    with op.batch_alter_table("serial") as table:
        table.create_unique_constraint(op.f("uq_serial_order_id_number"), ["order_id", "number"])
        table.create_check_constraint("counted", "number > 0")


def _customers() -> None:
    op.create_table(
        "customer",
        sa.Column("mark", sa.Text, nullable=False, unique=True),
        _id(),
        *_told(),
    )
    op.create_table(
        "customer_detail",
        _to("customer.id", "customer_id"),
        sa.Column("version", sa.Integer, nullable=False),
        _text("name"),
        _text("address"),
        _text("mail"),
        _text("phone"),
        _id(),
        *_told(),
        sa.CheckConstraint("version > 0", name="counted"),
        sa.UniqueConstraint("customer_id", "version"),
    )
    op.create_table(
        "erasure",
        _to("customer.id", "customer_id", index=True),
        _text("reason"),
        _id(),
        *_told(),
    )
    op.create_table(
        "order_customer",
        _to("orders.id", "order_id", index=True),
        _to("customer.id", "customer_id", index=True),
        _id(),
        *_told(),
    )


def _lots() -> None:
    op.create_table(
        "lot",
        sa.Column("mark", sa.Text, nullable=False, unique=True),
        _id(),
        *_told(),
    )
    op.create_table(
        "lot_detail",
        _to("lot.id", "lot_id"),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("kind", sa.Text, nullable=False, index=True),
        _text("name"),
        sa.Column("batch", sa.Text, nullable=False, index=True),
        _text("supplier"),
        sa.Column("received", sa.Date),
        sa.Column("expires", sa.Date, index=True),
        sa.Column("price", sa.BigInteger),
        _text("currency"),
        sa.Column("amount", sa.BigInteger),
        _text("unit"),
        _text("note"),
        _id(),
        *_told(),
        sa.UniqueConstraint("lot_id", "version"),
        sa.CheckConstraint("version > 0", name="counted"),
    )
    op.create_table(
        "cell",
        _to("lot.id", "lot_id"),
        _text("mark"),
        _text("figures"),
        _id(),
        *_told(),
        sa.UniqueConstraint("lot_id", "mark"),
    )


def _built() -> None:
    op.create_table(
        "built",
        _to("serial.id", "serial_id"),
        sa.Column("version", sa.Integer, nullable=False),
        _text("program"),
        _text("figures"),
        _text("checks"),
        sa.Column("proven", sa.Boolean, nullable=False),
        _id(),
        *_told(),
        sa.CheckConstraint("version > 0", name="counted"),
        sa.UniqueConstraint("serial_id", "version"),
    )
    op.create_table(
        "seat",
        _to("built.id", "built_id"),
        _text("place"),
        _to("lot.id", "lot_id"),
        _to("cell.id", "cell_id", null=True, index=True),
        _id(),
        sa.UniqueConstraint("built_id", "place"),
        sa.Index(None, "lot_id", "built_id"),
    )
    op.create_table(
        "joint",
        _to("built.id", "built_id", index=True),
        _text("start"),
        _text("end"),
        _text("kind"),
        _text("maker"),
        _text("note"),
        _id(),
    )


def _deviating() -> None:
    """What was used for it, what in place of something else, and what is otherwise."""
    op.create_table(
        "used",
        _to("built.id", "built_id", index=True),
        _to("lot.id", "lot_id"),
        sa.Column("amount", sa.BigInteger),
        _text("unit"),
        _id(),
        sa.Index(None, "lot_id", "built_id"),
    )
    op.create_table(
        "substitution",
        _to("built.id", "built_id", index=True),
        _text("part"),
        _text("planned"),
        _text("really"),
        _text("reason"),
        _id(),
    )
    op.create_table(
        "deviation",
        _to("built.id", "built_id", index=True),
        _text("what"),
        _text("places"),
        _text("note"),
        _id(),
    )


def _files() -> None:
    op.create_table(
        "file",
        sa.Column("sha256", sa.Text, nullable=False, unique=True),
        _text("name"),
        _text("media"),
        sa.Column("size", sa.Integer, nullable=False),
        _id(),
        *_told(),
        sa.CheckConstraint("size >= 0", name="size"),
    )
    op.create_table(
        "attached",
        _text("kind"),
        _text("title"),
        _text("revision"),
        _to("file.id", "file_id", index=True),
        _to("serial.id", "serial_id", null=True),
        _to("orders.id", "order_id", null=True),
        _id(),
        *_told(),
        sa.CheckConstraint("serial_id IS NOT NULL OR order_id IS NOT NULL", name="of_something"),
        sa.Index(None, "serial_id", "id"),
        sa.Index(None, "order_id", "id"),
    )


def _readings() -> None:
    op.create_table(
        "instrument",
        sa.Column("name", sa.Text, nullable=False, unique=True),
        _text("kind"),
        _text("number"),
        _id(),
        *_told(),
    )
    op.create_table(
        "calibration",
        _to("instrument.id", "instrument_id"),
        sa.Column("day", sa.Date, nullable=False),
        sa.Column("due", sa.Date),
        _to("file.id", "file_id", null=True),
        _text("note"),
        _id(),
        *_told(),
        sa.Index(None, "instrument_id", "day"),
    )
    op.create_table(
        "reading",
        _to("serial.id", "serial_id", null=True),
        _to("cell.id", "cell_id", null=True, index=True),
        _to("lot.id", "lot_id", null=True, index=True),
        _text("step"),
        _text("quantity"),
        sa.Column("value", sa.Double, nullable=False),
        _text("unit"),
        sa.Column("light_w_m2", sa.Double),
        sa.Column("heat_c", sa.Double),
        _to("instrument.id", "instrument_id", null=True),
        _to("calibration.id", "calibration_id", null=True, index=True),
        _to("file.id", "file_id", null=True),
        _to("reading.id", "corrects_id", null=True, index=True),
        _text("note"),
        _id(),
        *_told(),
        sa.CheckConstraint(
            "serial_id IS NOT NULL OR cell_id IS NOT NULL OR lot_id IS NOT NULL", name="of_something"
        ),
        sa.Index(None, "instrument_id", "at"),
        sa.Index(None, "serial_id", "id"),
    )


def _stock() -> None:
    op.create_table(
        "stock_movement",
        _text("item"),
        sa.Column("amount", sa.BigInteger, nullable=False),
        _text("unit"),
        _text("reason"),
        _to("lot.id", "lot_id", null=True, index=True),
        _to("serial.id", "serial_id", null=True, index=True),
        _to("orders.id", "order_id", null=True, index=True),
        _text("note"),
        _id(),
        *_told(),
        sa.Index(None, "reason", "id"),
        sa.Index(None, "item", "unit", "lot_id"),
    )


def _remnants() -> None:
    op.create_table(
        "remnant",
        sa.Column("mark", sa.Text, nullable=False, unique=True),
        sa.Column("item", sa.Text, nullable=False, index=True),
        sa.Column("length_mm", sa.Double, nullable=False),
        sa.Column("width_mm", sa.Double),
        _to("lot.id", "lot_id", null=True),
        _id(),
        *_told(),
        sa.CheckConstraint("length_mm > 0", name="length"),
    )
    op.create_table(
        "remnant_state",
        _to("remnant.id", "remnant_id"),
        sa.Column("version", sa.Integer, nullable=False),
        _text("state"),
        _to("serial.id", "serial_id", null=True),
        _id(),
        *_told(),
        sa.UniqueConstraint("remnant_id", "version"),
        sa.CheckConstraint("version > 0", name="counted"),
    )


def _hours() -> None:
    op.create_table(
        "hours",
        _to("orders.id", "order_id", null=True, index=True),
        _to("serial.id", "serial_id", null=True, index=True),
        sa.Column("step", sa.Text, nullable=False, index=True),
        sa.Column("minutes", sa.BigInteger, nullable=False),
        _text("note"),
        _id(),
        *_told(),
    )


def _repairs() -> None:
    op.create_table(
        "claim",
        _to("serial.id", "serial_id", index=True),
        _text("words"),
        _id(),
        *_told(),
    )
    op.create_table(
        "repair",
        _to("serial.id", "serial_id", index=True),
        _to("claim.id", "claim_id", null=True, index=True),
        _text("words"),
        _id(),
        *_told(),
    )


def _id() -> sa.Column[int]:
    return sa.Column("id", sa.Integer, primary_key=True)


def _to(place: str, column: str, *, null: bool = False, index: bool = False) -> sa.Column[int]:
    return sa.Column(column, sa.Integer, sa.ForeignKey(place), nullable=null, index=index)


def _text(name: str) -> sa.Column[str]:
    return sa.Column(name, sa.Text, nullable=False)


def _told() -> tuple[sa.Column[str], sa.Column[object]]:
    at: sa.Column[object] = sa.Column("at", sa.DateTime(timezone=True), nullable=False)
    return _text("who"), at
