"""A table of what was weighed, written once for people and once as numbers for programs."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Generic, Literal, TypeVar

from panewright.panel.design import Weighed
from panewright.units import show

Units = Literal["metric", "us"]
Value = float | str | None
Record = TypeVar("Record")


@dataclass(frozen=True, slots=True)
class Column(Generic[Record]):
    """One column: its head for people, its key with the unit for programs, and where its value stands."""

    head: str  #: "" where only programs get it
    key: str
    read: Callable[[Record], Value]
    unit: str = ""  #: of the value; "" for a word or a count
    shown: str = ""  #: another unit for people
    times: float = 1.0  #: from the one to the other

    def text(self, record: Record, units: Units) -> str:
        """For people."""
        value = self.read(record)
        if value is None or isinstance(value, str):
            return value or ""
        if not self.unit:
            return f"{value:.0f}"
        return show(self.times * value, self.shown or self.unit, units)

    def figure(self, record: Record) -> Value:
        """For programs; what has no bound is left out."""
        value = self.read(record)
        return None if isinstance(value, float) and not math.isfinite(value) else value


@dataclass(frozen=True, slots=True)
class Grid(Generic[Record]):
    """Columns over records; people may get fewer rows than programs."""

    columns: tuple[Column[Record], ...]
    records: tuple[Record, ...]
    people: tuple[Record, ...]

    def weighed(self, question: str, taken: str, why: str, units: Units) -> Weighed:
        """The choice with its table."""
        told = tuple(column for column in self.columns if column.head)
        return Weighed(
            question,
            taken,
            why,
            tuple(column.head for column in told),
            tuple(tuple(column.text(record, units) for column in told) for record in self.people),
            tuple(column.key for column in self.columns),
            tuple(tuple(column.figure(record) for column in self.columns) for record in self.records),
        )


def ordered(words: Iterable[tuple[str, object]]) -> str:
    """Which of these the order pins, as a sentence; nothing where it pins none.

    >>> ordered((("rail", "x"), ("bite", None), ("gap", 4.0)))
    'As ordered: rail, gap.'
    """
    pinned = [name for name, value in words if value is not None]
    return f"As ordered: {', '.join(pinned)}." if pinned else ""


def sentences(*parts: str) -> str:
    """Sentences in a row, empty ones left out."""
    return " ".join(part for part in parts if part)
