"""One correction for each reading, by the database itself; and an index that adds up the stock."""

from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Change keys and indexes; no row is touched."""
    with op.batch_alter_table("reading") as table:
        table.drop_index("ix_reading_corrects_id")
        table.create_unique_constraint(op.f("uq_reading_corrects_id"), ["corrects_id"])
    op.drop_index("ix_stock_movement_item_unit_lot_id", "stock_movement")
    op.create_index(
        "ix_stock_movement_item_unit_lot_id_amount", "stock_movement", ["item", "unit", "lot_id", "amount"]
    )
