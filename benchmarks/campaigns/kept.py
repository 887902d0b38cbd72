"""What was answered of every panel so far: a long campaign in slices, each row kept as soon as it is there.

A panel's chance hangs on its number alone, so that it is the same in whatever slice it comes. A slice that
is broken off has lost nothing but its last panel. A panel that is answered again takes the place of its last
row.
"""

from __future__ import annotations

import csv
import io
import time
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from campaigns.faults import Answer, Verdict

_COLUMNS = (
    "seed", "panel", "by", "group", "fault", "lost_share", "ours", "ours_odds", "ours_healthy", "called",
    "observer", "observer_odds", "observer_healthy", "observer_without_errors", "seconds", "day", "slice",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Slice:
    """One run of a part of the panels."""

    first: int
    count: int
    seed: int
    day: str
    command: str


@dataclass(frozen=True, slots=True)
class Row:
    """One answer, and the run that gave it."""

    answer: Answer
    seed: int
    seconds: float  #: of the panel, told at its first row
    day: str
    command: str

    @property
    def key(self) -> tuple[int, int, str]:
        """What there is one row of."""
        return self.seed, self.answer.number, self.answer.how


def keep(part: Slice, answered: Iterator[tuple[Answer, ...]], file: Path) -> list[Row]:
    """Answers of a slice added to the file; all rows of that seed, by number."""
    if not file.exists():
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(_line(_COLUMNS), "utf-8")
    start = time.perf_counter()
    for told in answered:
        took, start = time.perf_counter() - start, time.perf_counter()
        rows = [
            Row(each, part.seed, 0.0 if k else took, part.day, part.command) for k, each in enumerate(told)
        ]
        with file.open("a", encoding="utf-8") as kept:
            kept.write("".join(_line(_cells(row)) for row in rows))
    rows = read(file)
    _write(rows, file)
    return [row for row in rows if row.seed == part.seed]


def read(file: Path) -> list[Row]:
    """The last row of each panel and way of reading, in order."""
    with file.open(encoding="utf-8", newline="") as text:
        rows = [_row(line) for line in csv.DictReader(text)]
    return [row for _, row in sorted({row.key: row for row in rows}.items())]


def slices(rows: Iterable[Row]) -> Iterator[str]:
    """Every run whose rows stand, with how many panels are of it."""
    runs: dict[tuple[str, str], set[int]] = {}
    for row in rows:
        runs.setdefault((row.day, row.command), set()).add(row.answer.number)
    for (day, command), numbers in sorted(runs.items(), key=lambda each: min(each[1])):
        yield f"{len(numbers)} panels from number {min(numbers)} to {max(numbers)}: `{command}`, {day}"


def _write(rows: Iterable[Row], file: Path) -> None:
    """The whole file in its place at once."""
    beside = file.with_suffix(".new")
    beside.write_text("".join([_line(_COLUMNS), *(_line(_cells(row)) for row in rows)]), "utf-8")
    beside.replace(file)


def _line(cells: Iterable[object]) -> str:
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerow(cells)
    return text.getvalue()


def _cells(row: Row) -> tuple[object, ...]:
    told = row.answer
    ours, known = told.ours, told.observer
    return (
        row.seed, told.number, told.how, told.group, told.words, f"{told.lost:.5f}",
        ours.first, f"{ours.odds:.6f}", f"{ours.healthy:.6f}", "yes" if told.called else "no",
        known.first, f"{known.odds:.6f}", f"{known.healthy:.6f}", told.plain,
        f"{row.seconds:.1f}", row.day, row.command,
    )  # fmt: skip


def _row(line: dict[str, Any]) -> Row:
    ours, known = (
        Verdict(line[who], float(line[f"{who}_odds"]), float(line[f"{who}_healthy"]))
        for who in ("ours", "observer")
    )
    answer = Answer(
        int(line["panel"]), line["by"], line["group"], line["fault"], float(line["lost_share"]),
        ours, known, line["observer_without_errors"],
    )  # fmt: skip
    return Row(answer, int(line["seed"]), float(line["seconds"]), line["day"], line["slice"])
