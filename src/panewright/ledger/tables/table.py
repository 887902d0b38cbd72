"""What all tables have in common."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal
from typing import Any, ClassVar

from sqlalchemy import Date, MetaData
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

from panewright.ledger.tables.columns import Amount, Figure, Line, Moment

#: Names of keys and checks are ours, so that a later change of the schema can name them on both databases.
NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s",
    "pk": "pk_%(table_name)s",
}


class Row(DeclarativeBase):
    """A row of some table. Rows are added, never changed."""

    metadata = MetaData(naming_convention=NAMES)
    type_annotation_map: ClassVar[dict[Any, Any]] = {
        str: Line(),
        datetime: Moment(),
        date: Date(),
        Decimal: Amount(),
        float: Figure(),
    }

    id: Mapped[int] = mapped_column(primary_key=True)


class Told:
    """Who wrote a row, and when it was."""

    who: Mapped[str]
    at: Mapped[datetime]
