"""What somebody wrote beside a cell: it may be harmless, and only a person can tell."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from panewright.intake.cells import CellRows
from panewright.lots.standing.standing import Suspect

_LONGEST = 120  # letters of a remark that are told


def remarked(rows: CellRows) -> Iterator[Suspect]:
    """Cells with a remark, each told once with all that is written of it."""
    found: dict[str, dict[str, list[int]]] = {}
    for mark, remark, row in zip(rows.marks, rows.remarks, rows.row_numbers.tolist(), strict=True):
        if remark:
            found.setdefault(mark, {}).setdefault(" ".join(remark.split()), []).append(row)
    for mark, said in found.items():
        words = "; ".join(said)
        short = words if len(words) <= _LONGEST else f"{words[:_LONGEST]} ..."
        numbers = dict.fromkeys(row for some in said.values() for row in some)
        yield Suspect(mark, "remark", f"Its row says '{short}'. It stays in.", tuple(numbers))


def by_cell(marks: Sequence[str], rows: Sequence[str], words: Sequence[str]) -> tuple[str, ...]:
    """What is written of each cell, the words of its rows joined; empty where nothing is."""
    if not any(words):
        return ()
    found: dict[str, dict[str, None]] = {}
    for mark, word in zip(rows, words, strict=True):
        if word:
            found.setdefault(mark, {})[word] = None
    return tuple("; ".join(found.get(mark, ())) for mark in marks)
