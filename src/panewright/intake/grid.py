"""A table as it stands in its file: rows of text, each with its number, nothing yet understood."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.errors import Problem, SheetError


@dataclass(frozen=True, slots=True)
class Merged:
    """Cells of a workbook joined to one: rows as numbered in the file, columns from 0."""

    first_row: int
    first_column: int
    last_row: int
    last_column: int


@dataclass(frozen=True, slots=True)
class Grid:
    """Rows of text. Rows need not be of one length; empty rows that a workbook leaves out are not here."""

    name: str  #: of the file, or of the sheet in it
    rows: tuple[list[str], ...]
    numbers: tuple[int, ...]  #: of each row in the file, from 1
    merged: tuple[Merged, ...] = ()
    notes: tuple[str, ...] = ()


def refuse(file: str, reason: str, cure: str, **where: object) -> SheetError:
    """The error of a file that cannot be read as a table."""
    return SheetError([Problem(reason, cure, file=file, **where)])  # type: ignore[arg-type]
