"""What a person can get wrong, and how it is told: place, value, reason, cure.

    PanewrightError                  every mistake below; holds all problems found, not only the first
    +-- OrderError                   the order's text is wrong or asks for what no cell can do
    +-- ShelfError                   a shelf table is wrong
    +-- CurveError                   readings are no curve, or say too little for what was asked
    +-- SkyError                     place, clock and plane say nothing of the light
    +-- BenchError                   what was read at the bench cannot be so
    +-- SheetError                   a table cannot be read, or its columns are not settled
    +-- BuiltError                   what is said of a built panel cannot be so
    +-- FolderError                  a file cannot be read, or the pack cannot be written
    +-- RecordError                  the records do not know it, or cannot keep it
        +-- StaleError               somebody else saved in the meantime

Our own mistakes stay `ValueError` and `TypeError` and show a traceback: they are bugs.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Problem:
    """One mistake of a person, told so that the person can mend it."""

    reason: str  #: what is wrong
    cure: str  #: what to write or do instead
    file: str = ""
    line: int | None = None
    key: str = ""  #: dotted key, 'site.wind'
    value: str = ""  #: as the person wrote it

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}" if self.line else self.file
        what = f"{self.key} = {self.value}" if self.value else self.key
        head = ": ".join(part for part in (place, what) if part)
        return f"{head}: {self.reason} {self.cure}" if head else f"{self.reason} {self.cure}"


class PanewrightError(Exception):
    """A person's mistake, with every problem found."""

    def __init__(self, problems: Sequence[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))


class OrderError(PanewrightError):
    """The order cannot be read as an order."""


class ShelfError(PanewrightError):
    """A shelf table cannot be read."""


class CurveError(PanewrightError):
    """The readings are no current-voltage curve, or say too little for what was asked."""


class SkyError(PanewrightError):
    """Place, clock or plane cannot be, or the sun does not shine on it."""


class BenchError(PanewrightError):
    """What was read at the bench cannot be so, or says too little to rate by."""


class SheetError(PanewrightError):
    """A table of readings cannot be read, or what its columns say is not settled."""


class BuiltError(PanewrightError):
    """What is said of a built panel cannot be so."""


class FolderError(PanewrightError):
    """A file or folder cannot be read or written."""


class RecordError(PanewrightError):
    """The shop's records do not know what was asked for, or cannot keep what was given."""


class AwayError(RecordError):
    """The records cannot be reached just now: what was asked may be asked again, as it is."""


class StaleError(RecordError):
    """Somebody else saved in the meantime; `stands` is what stands now."""

    def __init__(self, problems: Sequence[Problem], stands: object) -> None:
        self.stands = stands
        super().__init__(problems)
