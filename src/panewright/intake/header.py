"""Where a table's header stands: the row with most names of readings, with what is joined to it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice, pairwise

from panewright.intake.grid import Grid
from panewright.intake.measure import is_unit
from panewright.intake.naming import known, named

_LOOK = 60  # rows, from the top
_UNITS = 3  # of a line with words among them, at least
_UNDER = re.compile(r"\D*\d?\D*")  # a part of a heading: words, or which reading it is


@dataclass(frozen=True, slots=True)
class Header:
    """A header found, and the row after which cells begin."""

    cells: tuple[str, ...]
    units: tuple[str, ...]
    after: int  #: place of the first row of cells
    titles: tuple[str, ...]
    named: int  #: how many of the cells are names that are known
    notes: tuple[str, ...] = ()


def find_header(grid: Grid) -> Header:
    """The header of a table.

    >>> rows = ["Lot 12"], ["No", "Isc", "Voc"], ["", "A", "mV"], ["1", "9", "611"]
    >>> find_header(Grid("lot", rows, (1, 2, 3, 4)))
    Header(cells=('No', 'Isc', 'Voc'), units=('', 'A', 'mV'), after=3, titles=('Lot 12',), named=3, notes=())
    """
    place, named = _place(grid)
    if place is None:
        width = max((len(grid.rows[each]) for each in _looked_at(grid)), default=1)
        return Header(
            ("",) * width, ("",) * width, 0, (), 0, ("No header was found; columns go by their place.",)
        )
    cells = _cells(grid, place)
    after, units = place + 1, ("",) * len(cells)
    under = _filled(grid, after)[: len(cells)] if after < len(grid.rows) else []
    if _joined_wide(grid, place) and under and all(map(_UNDER.fullmatch, under)):
        joined = [f"{top} {low}".strip() for top, low in zip(cells, under + [""] * len(cells), strict=False)]
        cells, after = tuple(joined), after + 1
        under = _filled(grid, after)[: len(cells)] if after < len(grid.rows) else []
    if _all_units(under):
        units, after = tuple(map(_unit, under + [""] * (len(cells) - len(under)))), after + 1
    return Header(cells, units, after, _titles(grid, place), named)


def _place(grid: Grid) -> tuple[int | None, int]:
    """The row with most names; without any, the first of words with figures under it."""
    looked = _looked_at(grid)
    counted = [(sum(map(known, map(str.strip, grid.rows[place]))), place) for place in looked]
    named, place = max(counted, key=lambda each: (each[0], -each[1]), default=(0, 0))
    if named > 1 or (named == 1 and not _figures(grid.rows[place])):
        return place, named
    for place, under in pairwise(looked):
        row = grid.rows[place]
        words = sum(map(bool, map(str.strip, row)))
        if not _figures(row) and _figures(grid.rows[under]) and 2 * words > len(row):
            return place, 0
    return None, 0


def _looked_at(grid: Grid) -> list[int]:
    """The places of the first rows that hold anything."""
    filled = (place for place, row in enumerate(grid.rows) if any(field.strip() for field in row))
    return list(islice(filled, _LOOK))


def _figures(row: list[str]) -> bool:
    """Whether any field begins as a number with a decimal or of several digits does."""
    return any(field.strip()[:1].isdigit() or field.strip()[:2].strip("-.,+").isdigit() for field in row)


def _cells(grid: Grid, place: int) -> tuple[str, ...]:
    """The header's cells, with the heading that is joined above several of them put before."""
    own = [field.strip() for field in _filled(grid, place)]
    while own and not own[-1] and not _column_used(grid, place, len(own) - 1):
        own.pop()
    wide = [each for each in grid.merged if place and each.last_row == grid.numbers[place - 1]]
    if not any(each.last_column - each.first_column + 1 < len(own) - 1 for each in wide):
        return _grouped(grid, place, own)
    above = _filled(grid, place - 1)
    above += [""] * len(own)
    return tuple(
        f"{top.strip()} {low}".strip() if top != low else low for top, low in zip(above, own, strict=False)
    )


def _grouped(grid: Grid, place: int, own: list[str]) -> tuple[str, ...]:
    """Headings that do not say which, with the group's word above them, where the two together do say it.

    A group that is not joined in the file speaks for the empty fields to its right too.
    """
    above = [field.strip() for field in grid.rows[place - 1]] if place else []
    if sum(map(bool, above)) < 2 or not any(named(each).choices for each in own):
        return tuple(own)  # one field alone is a title
    told, word = [], ""
    above += [""] * len(own)
    for top, low in zip(above, own, strict=False):
        word = top or word
        both = f"{word} {low}"
        told.append(both if named(low).choices and word and named(both).quantity else low)
    return tuple(told)


def _column_used(grid: Grid, place: int, column: int) -> bool:
    return any(len(row) > column and row[column].strip() for row in grid.rows[place + 1 : place + 1 + _LOOK])


def _joined_wide(grid: Grid, place: int) -> bool:
    number = grid.numbers[place]
    return any(
        each.first_row == each.last_row == number and each.last_column > each.first_column
        for each in grid.merged
    )


def _filled(grid: Grid, place: int) -> list[str]:
    """A row with the text of joined cells in every one of them, from left to right."""
    row, number = list(grid.rows[place]), grid.numbers[place]
    for each in grid.merged:
        if each.first_row == number and each.first_column < len(row) and each.last_column < 500:
            row += [""] * (each.last_column + 1 - len(row))
            text = row[each.first_column]
            row[each.first_column : each.last_column + 1] = [text] * (
                each.last_column + 1 - each.first_column
            )
    return row


def _all_units(row: list[str]) -> bool:
    """Whether a line is of units; a word or two among many are beside a column that has none."""
    said = [_bare(field) for field in row if field.strip()]
    units = [is_unit(each) and not each.isdigit() for each in said]
    other = [each for unit, each in zip(units, said, strict=True) if not unit and each not in ("", "-", "1")]
    words = sum(units) >= _UNITS and not _figures(row) and 3 * len(other) <= len(said)
    return any(units) and (not other or words)


def _unit(field: str) -> str:
    """The unit of a field under a heading; '' where it is a word."""
    return _bare(field) if is_unit(_bare(field)) or _bare(field) in ("-", "1") else ""


def _bare(field: str) -> str:
    return field.strip().strip("[](){}").strip()


def _titles(grid: Grid, place: int) -> tuple[str, ...]:
    return tuple(_told(grid.rows[:place]))


def _told(rows: tuple[list[str], ...]) -> Iterator[str]:
    for row in rows:
        if line := " ".join(field.strip() for field in row if field.strip()):
            yield line[:300]
