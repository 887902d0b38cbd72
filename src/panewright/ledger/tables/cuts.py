"""Cutting plans as they were made, and what of them was cut."""

from __future__ import annotations

from sqlalchemy import CheckConstraint, ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from panewright.ledger.tables.columns import Document
from panewright.ledger.tables.table import Row, Told


class CutPlanRow(Told, Row):
    """A plan over some orders, with all that it was made from; its number is its id."""

    __tablename__ = "cut_plan"

    text: Mapped[str] = mapped_column(Document())


class CutDoneRow(Told, Row):
    """That a row of a plan was cut, or that it was not after all: the newest version holds.

    `did` tells which movements and pieces of the rack the cut wrote, so that they can be taken back.
    """

    __tablename__ = "cut_done"
    __table_args__ = (
        UniqueConstraint("plan_id", "row", "version"),
        CheckConstraint("version > 0", "counted"),
    )

    plan_id: Mapped[int] = mapped_column(ForeignKey("cut_plan.id"))
    row: Mapped[int]
    version: Mapped[int]
    done: Mapped[bool]
    did: Mapped[str] = mapped_column(Document())


class CutPieceRow(Row):
    """So many pieces of one size for an order; below zero where a cut is taken back."""

    __tablename__ = "cut_piece"

    done_id: Mapped[int] = mapped_column(ForeignKey("cut_done.id"), index=True)
    order_id: Mapped[int] = mapped_column(ForeignKey("orders.id"), index=True)
    item: Mapped[str]
    name: Mapped[str]
    length_mm: Mapped[float]
    width_mm: Mapped[float | None]
    count: Mapped[int]
