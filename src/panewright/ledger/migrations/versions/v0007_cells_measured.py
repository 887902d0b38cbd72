"""Files of measured cells, what their columns are, their readings, and what was settled of single cells."""

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"

_FIGURES: tuple[str, ...] = (
    "isc_a",
    "voc_v",
    "at_v",
    "at_a",
    "imp_a",
    "vmp_v",
    "pmp_w",
    "fill_factor",
    "efficiency",
)
_FIGURES += ("shunt_ohm", "reverse_v", "reverse_a", "irradiance_w_m2", "cell_c")


def upgrade() -> None:
    """Make the tables; no row is touched."""
    op.create_table(
        "cell_table",
        sa.Column("lot_id", sa.Integer, sa.ForeignKey("lot.id"), nullable=False, index=True),
        sa.Column("file_id", sa.Integer, sa.ForeignKey("file.id"), nullable=False),
        sa.Column("name", sa.Text, nullable=False),
        _id(),
        *_told(),
    )
    op.create_table(
        "cell_mapping",
        sa.Column("table_id", sa.Integer, sa.ForeignKey("cell_table.id"), nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        *(sa.Column(name, sa.Text, nullable=False) for name in ("text", "kind", "told")),
        _id(),
        *_told(),
        sa.UniqueConstraint("table_id", "version"),
        sa.CheckConstraint("version > 0", name="counted"),
    )
    op.create_table(
        "cell_reading",
        sa.Column("mapping_id", sa.Integer, sa.ForeignKey("cell_mapping.id"), nullable=False),
        sa.Column("mark", sa.Text, nullable=False),
        sa.Column("row", sa.Integer, nullable=False),
        *(sa.Column(name, sa.Double) for name in _FIGURES),
        *(sa.Column(name, sa.Text, nullable=False) for name in ("remark", "grade", "time")),
        _id(),
    )
    op.create_index(op.f("ix_cell_reading_mapping_id_mark"), "cell_reading", ["mapping_id", "mark"])
    op.create_table(
        "cell_settled",
        sa.Column("table_id", sa.Integer, sa.ForeignKey("cell_table.id"), nullable=False),
        sa.Column("mark", sa.Text, nullable=False),
        sa.Column("row", sa.Integer, nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        *(sa.Column(name, sa.Text, nullable=False) for name in ("what", "figures", "mark_anew", "reason")),
        _id(),
        *_told(),
        sa.UniqueConstraint("table_id", "mark", "row", "version"),
        sa.CheckConstraint("version > 0", name="counted"),
    )


def _id() -> sa.Column[int]:
    return sa.Column("id", sa.Integer, primary_key=True)


def _told() -> tuple[sa.Column[str], sa.Column[object]]:
    at: sa.Column[object] = sa.Column("at", sa.DateTime(timezone=True), nullable=False)
    return sa.Column("who", sa.Text, nullable=False), at
