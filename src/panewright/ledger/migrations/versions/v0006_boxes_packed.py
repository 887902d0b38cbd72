"""Lines of a packing list as they lie in a box; those ticked as steps before are written here too."""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"


def upgrade() -> None:
    """Make the table; no row that stands is touched."""
    op.create_table(
        "packed",
        sa.Column("serial_id", sa.Integer, sa.ForeignKey("serial.id"), nullable=False),
        sa.Column("line", sa.Text, nullable=False),
        sa.Column("done", sa.Boolean, nullable=False),
        sa.Column("id", sa.Integer, primary_key=True),
        sa.Column("who", sa.Text, nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Index(None, "serial_id", "line", "id"),
    )
    op.execute(
        "INSERT INTO packed (serial_id, line, done, who, at) SELECT serial_id, step, done, who, at "
        "FROM step_done WHERE step LIKE 'kit: %' OR step LIKE 'kit paper: %' ORDER BY id"
    )
