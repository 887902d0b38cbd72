"""Cells of a lot as they were measured: files, what their columns are, readings, what a maker settled."""

from __future__ import annotations

from sqlalchemy import CheckConstraint, ForeignKey, Index, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from panewright.ledger.tables.columns import Document, Prose
from panewright.ledger.tables.table import Row, Told


class CellTableRow(Told, Row):
    """A file of measured cells of a lot, kept raw; the newest of a lot holds."""

    __tablename__ = "cell_table"

    lot_id: Mapped[int] = mapped_column(ForeignKey("lot.id"), index=True)
    file_id: Mapped[int] = mapped_column(ForeignKey("file.id"))
    name: Mapped[str]


class CellMappingRow(Told, Row):
    """What the columns of such a file are, and which kind of cell it is of; the newest version holds.

    `told` is JSON: which rows were bad, which hold no cell, and what was said on the way.
    """

    __tablename__ = "cell_mapping"
    __table_args__ = (UniqueConstraint("table_id", "version"), CheckConstraint("version > 0", "counted"))

    table_id: Mapped[int] = mapped_column(ForeignKey("cell_table.id"))
    version: Mapped[int]
    text: Mapped[str] = mapped_column(Document())
    kind: Mapped[str] = mapped_column(Prose())
    told: Mapped[str] = mapped_column(Document())


class CellReadingRow(Row):
    """One reading of one cell, in SI, as a file and its columns tell it; NULL where nothing was read."""

    __tablename__ = "cell_reading"
    __table_args__ = (Index(None, "mapping_id", "mark"),)

    mapping_id: Mapped[int] = mapped_column(ForeignKey("cell_mapping.id"))
    mark: Mapped[str] = mapped_column(Prose())
    row: Mapped[int]
    isc_a: Mapped[float | None]
    voc_v: Mapped[float | None]
    at_v: Mapped[float | None]
    at_a: Mapped[float | None]
    imp_a: Mapped[float | None]
    vmp_v: Mapped[float | None]
    pmp_w: Mapped[float | None]
    fill_factor: Mapped[float | None]
    efficiency: Mapped[float | None]
    shunt_ohm: Mapped[float | None]
    reverse_v: Mapped[float | None]
    reverse_a: Mapped[float | None]
    irradiance_w_m2: Mapped[float | None]
    cell_c: Mapped[float | None]
    remark: Mapped[str] = mapped_column(Prose())
    grade: Mapped[str] = mapped_column(Prose())
    time: Mapped[str] = mapped_column(Prose())


class CellSettledRow(Told, Row):
    """What a maker settled of a cell, or of one of its rows: the newest version holds.

    `what`: keep, leave out, correct, or open again. `figures` is JSON: how they should have been read.
    """

    __tablename__ = "cell_settled"
    __table_args__ = (
        UniqueConstraint("table_id", "mark", "row", "version"),
        CheckConstraint("version > 0", "counted"),
    )

    table_id: Mapped[int] = mapped_column(ForeignKey("cell_table.id"))
    mark: Mapped[str] = mapped_column(Prose())
    row: Mapped[int]
    version: Mapped[int]
    what: Mapped[str]
    figures: Mapped[str] = mapped_column(Document())
    mark_anew: Mapped[str] = mapped_column(Prose())
    reason: Mapped[str] = mapped_column(Prose())
