"""What was answered of every case so far: a long campaign in slices, each row kept as soon as it is there.

A case's chance hangs on its number alone, so that it is the same in whatever slice it comes. A slice that
is broken off has lost nothing but its last case. A case that is answered again takes the place of its last
row.
"""

from __future__ import annotations

import csv
import io
import time
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Generic, Protocol, TypeVar


class Answer(Protocol):
    """What was answered of one case, in one of its ways."""

    @property
    def number(self) -> int:
        """Of the case, which its chance hangs on."""

    @property
    def how(self) -> str:
        """One of the ways; of each there is a row."""


A = TypeVar("A", bound=Answer)


@dataclass(frozen=True, slots=True)
class Form(Generic[A]):
    """How a campaign's answers are written down: a table's columns, and a row there and back."""

    things: str  #: what its cases are
    columns: tuple[str, ...]
    cells: Callable[[A], tuple[object, ...]]
    answer: Callable[[Mapping[str, str]], A]

    @property
    def head(self) -> tuple[str, ...]:
        """All columns of the file."""
        return ("seed", *self.columns, "seconds", "day", "slice")


@dataclass(frozen=True, slots=True)
class Slice:
    """One run of a part of the cases."""

    first: int
    count: int
    seed: int
    day: str
    command: str


@dataclass(frozen=True, slots=True)
class Row(Generic[A]):
    """One answer, and the run that gave it."""

    answer: A
    seed: int
    seconds: float  #: of the case, told at its first row
    day: str
    command: str

    @property
    def key(self) -> tuple[int, int, str]:
        """What there is one row of."""
        return self.seed, self.answer.number, self.answer.how


def keep(part: Slice, answered: Iterator[Sequence[A]], file: Path, form: Form[A]) -> list[Row[A]]:
    """Answers of a slice added to the file; all rows of that seed, by number."""
    if not file.exists():
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(_line(form.head), "utf-8")
    start = time.perf_counter()
    for told in answered:
        took, start = time.perf_counter() - start, time.perf_counter()
        rows = [
            Row(each, part.seed, 0.0 if k else took, part.day, part.command) for k, each in enumerate(told)
        ]
        with file.open("a", encoding="utf-8") as kept:
            kept.write("".join(_line(_cells(row, form)) for row in rows))
    rows = read(file, form)
    _write(rows, file, form)
    return [row for row in rows if row.seed == part.seed]


def read(file: Path, form: Form[A]) -> list[Row[A]]:
    """The last row of each case and way, in order."""
    with file.open(encoding="utf-8", newline="") as text:
        rows = [_row(line, form) for line in csv.DictReader(text)]
    return [row for _, row in sorted({row.key: row for row in rows}.items())]


def slices(rows: Iterable[Row[A]], things: str) -> Iterator[str]:
    """Every run whose rows stand, with how many cases are of it."""
    runs: dict[tuple[str, str], set[int]] = {}
    for row in rows:
        runs.setdefault((row.day, row.command), set()).add(row.answer.number)
    for (day, command), numbers in sorted(runs.items(), key=lambda each: min(each[1])):
        yield f"{len(numbers)} {things} from number {min(numbers)} to {max(numbers)}: `{command}`, {day}"


def _write(rows: Iterable[Row[A]], file: Path, form: Form[A]) -> None:
    """The whole file in its place at once."""
    beside = file.with_suffix(".new")
    beside.write_text("".join([_line(form.head), *(_line(_cells(row, form)) for row in rows)]), "utf-8")
    beside.replace(file)


def _line(cells: Iterable[object]) -> str:
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerow(cells)
    return text.getvalue()


def _cells(row: Row[A], form: Form[A]) -> tuple[object, ...]:
    return (row.seed, *form.cells(row.answer), f"{row.seconds:.1f}", row.day, row.command)


def _row(line: Mapping[str, str], form: Form[A]) -> Row[A]:
    return Row(form.answer(line), int(line["seed"]), float(line["seconds"]), line["day"], line["slice"])
