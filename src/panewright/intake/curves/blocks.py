"""The tables of a curve's file: one or many blocks, each a header, rows of points, and what lines say of it.

Panel 42, 4 May 2026               words
Irradiance: 812 W/m2               a fact, of all blocks that follow until another says otherwise
U [V];I [A]                        a header: two names of what a curve has, and no number
0,02;3,11                          a point
...
Irradiance: 790 W/m2               a fact parts two blocks; this one is of the next
0,03;3,05                          a point of the next block, under the same header

Empty rows part blocks too, unless they stand between every few points. A line that says 'after' is of the
block above it; so are all lines under the last.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from panewright.intake.bounds import MOST_ROWS
from panewright.intake.cells import BadRow
from panewright.intake.curves.facts import Fact, facts_in
from panewright.intake.curves.kinds import EMPTY, FACTS, LONG, POINT, SUM, UNITS, WORDS, heads, kinds
from panewright.intake.curves.naming import known, named
from panewright.intake.curves.quantity import GIVEN, QUANTITIES
from panewright.intake.delimited import read_delimited
from panewright.intake.grid import Grid, refuse
from panewright.intake.workbook import read_workbook

_BLOCK = re.compile(f"([{FACTS}{WORDS}{EMPTY}{SUM}]*)(hu?)?([{POINT}{LONG}{EMPTY}{SUM}]*)")
_LEAST_RUN = 5  #: points between empty rows, in the middle: where there are fewer, empty rows part nothing
_STAYS = frozenset({*GIVEN, "serial", "date"})  #: said once, for all blocks that follow
_REASONS = {EMPTY: "empty", SUM: "a total", WORDS: "words"}


@dataclass(frozen=True, slots=True)
class PassedRows:
    """Neighbouring rows that hold no point, and why."""

    first: int
    last: int
    reason: str

    def __str__(self) -> str:
        if self.first == self.last:
            return f"row {self.first}: {self.reason}"
        return f"rows {self.first} to {self.last}: {self.reason}"


@dataclass(frozen=True, slots=True)
class Block:
    """Rows of points under one header."""

    header: tuple[str, ...]  #: as written; '' where a column has none
    units: tuple[str, ...]  #: of the line under the header; '' where none
    columns: tuple[tuple[str, ...], ...]
    row_numbers: NDArray[np.int64]
    facts: tuple[Fact, ...] = ()  #: said of it, and of those before where nothing newer was said
    sheet: str = ""  #: of a workbook

    def __len__(self) -> int:
        return len(self.row_numbers)

    def called(self, column: int) -> str:
        """What a person calls a column: its header, or its place."""
        return self.header[column] or f"column {column + 1}"


@dataclass(frozen=True, slots=True)
class Blocks:
    """All blocks of a file, and what of its rows is no point."""

    name: str  #: of the file
    blocks: tuple[Block, ...]
    bad: tuple[BadRow, ...] = ()
    passed: tuple[PassedRows, ...] = ()
    notes: tuple[str, ...] = ()


def read_blocks(data: bytes, name: str) -> Blocks:
    """Every table of points in a file; `SheetError` where there is none.

    >>> text = b"G: 812 W/m2\\nU [V];I [A]\\n0,0;3,1\\n19;2,9\\n\\nG after: 805 W/m2\\n"
    >>> (block,) = read_blocks(text, "curve.csv").blocks
    >>> block.header, block.columns, [(each.value, each.when) for each in block.facts]
    (('U [V]', 'I [A]'), (('0,0', '19'), ('3,1', '2,9')), [(812.0, ''), (805.0, 'after')])
    """
    most = MOST_ROWS + 10_000  # of points, and what stands round them
    book = data.startswith(b"PK\x03\x04")
    grids = read_workbook(data, name) if book else (read_delimited(data, name, known, most),)
    found = [_of_grid(grid, grid.name if book else "") for grid in grids]
    blocks = tuple(block for each in found for block in each.blocks)
    if not blocks:
        cure = "Write one point a row, voltage and current in columns of their own, with a heading over each."
        raise refuse(name, "No row of the file is a point of a curve.", cure)
    empty = [each.name for each in found if not each.blocks]
    left = [f"No curve was found on: {', '.join(empty[:10])}."] * bool(empty)
    return Blocks(
        name,
        blocks,
        tuple(bad for each in found for bad in each.bad),
        tuple(passed for each in found for passed in each.passed),
        tuple(dict.fromkeys(note for each in found for note in (*each.notes, *left))),
    )


def _of_grid(grid: Grid, sheet: str) -> Blocks:
    """The blocks of one grid."""
    letters = kinds(grid)
    blocks: list[Block] = []
    waiting: tuple[Fact, ...] = ()
    header: tuple[str, ...] = ()
    units: tuple[str, ...] = ()
    for found in _BLOCK.finditer(letters):
        facts = tuple(_facts(grid, letters, found.start(1), found.end(1)))
        if blocks:
            blocks[-1] = replace(blocks[-1], facts=blocks[-1].facts + _after(facts))
            facts = tuple(each for each in facts if each.when != "after")
        waiting += facts
        if found.group(2):
            header, units = _header(grid, found.start(2), found.group(2))
        if POINT in found.group(3):
            whole = _block(grid, letters, found.span(3), (header, units, sheet))
            said = blocks[-1].facts if blocks else ()
            blocks += _parted(replace(whole, facts=_newest(said, waiting)), found.group(3))
            header, waiting = whole.header, ()
    if blocks and waiting:
        blocks[-1] = replace(blocks[-1], facts=blocks[-1].facts + _under(blocks[-1].facts, waiting))
    if blocks and not any(header):
        _refuse_cells(grid, letters)
    return Blocks(
        grid.name, tuple(blocks), _long_rows(grid, letters, blocks), _passed(grid, letters), grid.notes
    )


def _facts(grid: Grid, letters: str, start: int, end: int) -> Iterator[Fact]:
    for place in range(start, end):
        if letters[place] == FACTS:
            yield from facts_in(grid.rows[place], grid.numbers[place])


def _after(facts: tuple[Fact, ...]) -> tuple[Fact, ...]:
    return tuple(each for each in facts if each.when == "after")


def _under(above: tuple[Fact, ...], under: tuple[Fact, ...]) -> tuple[Fact, ...]:
    """Lines under the last block: what was told above it already was read anew after it."""
    told = {each.quantity for each in above if QUANTITIES[each.quantity].kind}
    return tuple(replace(each, when="after") if each.quantity in told else each for each in under)


def _refuse_cells(grid: Grid, letters: str) -> None:
    """A table of Isc and Voc has a cell a row, and no points of a curve."""
    for place, letter in enumerate(letters[:100]):
        fields = grid.rows[place] if letter in (FACTS, WORDS) else ()
        if {"isc_a", "voc_v"} <= {named(text).quantity for text in fields}:
            reason = (
                "This is a table of cells, with Isc and Voc of one in each row, and no points of a curve."
            )
            raise refuse(grid.name, reason, "Read it with `panewright lot read`.", line=grid.numbers[place])


def _newest(before: tuple[Fact, ...], own: tuple[Fact, ...]) -> tuple[Fact, ...]:
    """What holds of a block: its own facts, and of the block before what stays so until said anew."""
    anew = {each.quantity for each in own}
    stays = (each for each in before if not each.when and each.quantity in _STAYS)
    return tuple(each for each in stays if each.quantity not in anew) + own


def _header(grid: Grid, place: int, letters: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    header = heads(grid.rows[place])
    if UNITS not in letters:
        return header, ("",) * len(header)
    return header, tuple(text.strip().strip("[](){}") for text in _wide(grid.rows[place + 1], len(header)))


def _block(
    grid: Grid, letters: str, span: tuple[int, int], head: tuple[tuple[str, ...], tuple[str, ...], str]
) -> Block:
    """The points between two rows, as columns."""
    header, units, sheet = head
    places = [place for place in range(*span) if letters[place] == POINT]
    width = len(header) or max(len(grid.rows[place]) for place in places)
    rows = [grid.rows[place] for place in places]
    if any(len(row) != width for row in rows):
        rows = [_wide(row, width) for row in rows]
    numbers = np.array([grid.numbers[place] for place in places], np.int64)
    blank = ("",) * width
    return Block(header or blank, units or blank, tuple(zip(*rows, strict=True)), numbers, sheet=sheet)


def _wide(row: list[str], width: int) -> list[str]:
    return row[:width] + [""] * (width - len(row))


def _parted(block: Block, letters: str) -> list[Block]:
    """A block parted where empty rows stand in it, unless they stand between every few points."""
    runs = re.findall(f"[^{EMPTY}]+", letters)
    lengths = [count for run in runs if (count := run.count(POINT))]
    if len(lengths) < 2 or sorted(lengths)[len(lengths) // 2] < _LEAST_RUN:
        return [block]
    ends = np.cumsum(lengths).tolist()
    return [
        replace(
            block,
            columns=tuple(column[start:end] for column in block.columns),
            row_numbers=block.row_numbers[start:end],
        )
        for start, end in zip([0, *ends[:-1]], ends, strict=True)
    ]


def _long_rows(grid: Grid, letters: str, blocks: list[Block]) -> tuple[BadRow, ...]:
    """Rows with more fields than their header; most of a file being such, it is wrong as a whole."""
    places = [place for place, letter in enumerate(letters) if letter == LONG]
    bad = tuple(_long(grid, place) for place in places)
    if len(bad) > max(letters.count(POINT), 1) / 2:
        reason = f"{len(bad)} of {len(bad) + letters.count(POINT)} rows have more fields than the header."
        cure = "Where commas part the columns, write decimals with a point, or part columns by semicolons."
        raise refuse(grid.name, reason, cure, line=bad[0].row, value=bad[0].value)
    return bad if blocks else ()


def _long(grid: Grid, place: int) -> BadRow:
    told = " | ".join(text.strip() for text in grid.rows[place])
    reason = f"The row has {len(grid.rows[place])} fields, more than the header."
    cure = "Put a mark of decimals or a remark within quotation marks."
    return BadRow(grid.numbers[place], "", told[:80], reason, cure)


def _passed(grid: Grid, letters: str) -> tuple[PassedRows, ...]:
    """Rows that hold no point, neighbours of one kind together; facts and headers are told elsewhere."""
    return tuple(
        PassedRows(grid.numbers[run.start()], grid.numbers[run.end() - 1], _why(grid, run))
        for run in re.finditer(f"{EMPTY}+|{SUM}+|{WORDS}", letters)
    )


def _why(grid: Grid, run: re.Match[str]) -> str:
    kind = run.group()[0]
    words = " ".join(text.strip() for text in grid.rows[run.start()] if text.strip())
    return f"words: {words[:60]}" if kind == WORDS else _REASONS[kind]
