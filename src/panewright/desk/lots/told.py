"""What is said of a lot at the command: its columns, its bad rows, its spread, its suspects."""

from __future__ import annotations

from collections.abc import Iterator

from panewright.desk.lots.stood import SHARE_WORDS, Stood
from panewright.desk.lots.table import Table
from panewright.intake.cells import CellRows
from panewright.lots.standing.standing import Suspect
from panewright.units.showing import figure, show

_MOST = 40  #: lines of one list; `lot read --to` writes all of them (`listed`)


def of_table(table: Table) -> Iterator[str]:
    """The columns, each with its reason."""
    yield f"Columns of {table.sheet.name}, decimals with {table.mapping.decimal_mark!r}:"
    for each in table.mapping.bound:
        yield f"  {each}"
    for name, value in table.mapping.given.items():
        yield f"  for all rows: {name} {value:g}"


def of_rows(rows: CellRows) -> Iterator[str]:
    """How many rows were read, and every one that was not."""
    read, bad = len(set(rows.row_numbers.tolist())), len({each.row for each in rows.bad})
    yield f"Rows read: {read}; bad: {bad}; no cell: {len(rows.passed)}."
    yield from (f"  {each}" for each in rows.notes)
    yield from _first([f"  bad, {each}" for each in rows.bad])
    yield from _first([f"  row {each.row}: {each.reason}" for each in rows.passed])


def of_lot(stood: Stood) -> Iterator[str]:
    """How the lot stands, and what is suspected."""
    lot = stood.standing
    taken = "the nearest on the shelf; --cell says another" if stood.guessed else "as told"
    yield f"Cells: {len(lot.marks)}, taken for {stood.kind} ({taken})."
    yield from (f"  {each}" for each in lot.said)
    yield "In full sun, 1000 W/m2 at 25 degC:"
    yield f"  {'':8}{''.join(f'{each:>10}' for each in SHARE_WORDS)}"
    for spread in stood.spreads:
        row = "".join(f"{figure(value, 4):>10}" for value in spread.parts)
        yield f"  {f'{spread.said}, {spread.unit}':8}{row}"
    yield from _by_grade(stood)
    yield f"The watts of a cell are known to {show(stood.known_to_w, 'W')} (one standard deviation)."
    yield f"Suspects: {len(stood.suspects)}." if stood.suspects else "No suspects."
    yield from _first([f"  {suspect_line(each)}" for each in stood.suspects])


def _by_grade(stood: Stood) -> Iterator[str]:
    """How the watts spread in each grade that the table names."""
    graded = stood.by_grade
    if graded:
        yield "By grade, Pmp in W:"
    for grade, cells, spread in graded:
        row = "".join(f"{figure(value, 4):>10}" for value in spread.parts)
        yield f"  {(grade or 'none')[:8]:8}{row}  of {cells} cell{'s' * (cells > 1)}"


def suspect_line(each: Suspect) -> str:
    """One suspect with its rows and its reason."""
    rows = list(dict.fromkeys(each.rows))
    place = f" (row{'s' * (len(rows) > 1)} {', '.join(map(str, rows))})" if rows else ""
    return f"{each.mark or 'The whole lot'}{place}, {each.kind}: {each.reason}"


def _first(lines: list[str]) -> Iterator[str]:
    yield from lines[:_MOST]
    if len(lines) > _MOST:
        yield f"  and {len(lines) - _MOST} more; --to lists them all"
