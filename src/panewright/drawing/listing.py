"""A list for the workshop: parts, cuts, prices, readings; numbers stay numbers."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

Cell = str | int | float | Decimal | None


@dataclass(frozen=True, slots=True)
class Column:
    """A column's head, the unit of its numbers, and what it holds.

    >>> Column("length", "mm", "number").head
    'length, mm'
    """

    name: str
    unit: str = ""
    kind: Literal["text", "number", "money", "count"] = "text"

    @property
    def head(self) -> str:
        """Name and unit as one head."""
        return f"{self.name}, {self.unit}" if self.unit else self.name


@dataclass(frozen=True, slots=True)
class Listing:
    """Rows under named columns; None is an empty place."""

    name: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]

    def __post_init__(self) -> None:
        for row in self.rows:
            if len(row) != len(self.columns):
                raise ValueError(f"{self.name}: {len(self.columns)} columns, but a row is {row!r}")
