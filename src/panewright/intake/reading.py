"""A table read by its mapping: every row becomes readings in SI, or is told with its reason."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from panewright.errors import SheetError
from panewright.intake.accuracy import accuracy_words
from panewright.intake.cells import FIGURES, BadRow, CellRows
from panewright.intake.mapping import (
    GIVEN,
    LIT,
    SHARED,
    UNKNOWN,
    Bound,
    Mapping,
    light_open,
    refuse_unfit,
    refuse_unsettled,
)
from panewright.intake.quantity import QUANTITIES
from panewright.intake.sheet import Sheet
from panewright.intake.written import Figures, figures

Column = NDArray[np.float64]
_SHOWN = 80
_WHOLE = re.compile(r"\d+\.0+")
_MOMENT = GIVEN[:2]  # light and heat; what is given fills the fields that their columns leave empty
_PLACES = {"at_a": "at_v", "reverse_a": "reverse_v"}  # a current -> the voltage it was read at


def read_cells(sheet: Sheet, mapping: Mapping) -> CellRows:
    """Every row of a table: read, bad, or passed over.

    >>> from panewright.intake.proposal import propose
    >>> from panewright.intake.sheet import read_sheet
    >>> sheet = read_sheet(b"STC\\nNo;Isc [A];Voc [mV]\\n1;9,12;611\\n2;9;chip\\n", "lot.csv")
    >>> rows = read_cells(sheet, propose(sheet))
    >>> rows.marks, rows.figures["voc_v"].tolist(), str(rows.bad[0])[:49]
    (('1',), [0.611], "row 4, Voc [mV]: 'chip': This is no number. Write")
    """
    refuse_unfit(mapping, sheet)
    refuse_unsettled(mapping, sheet)
    read = {each: _figures(sheet, mapping, each) for each in mapping.bound if each.kind}
    marks, unmarked = _marks(sheet, mapping)
    bad = [
        *sheet.bad,
        *unmarked,
        *(row for each, column in read.items() for row in _bad(sheet, each, column)),
    ]
    wrong = np.isin(sheet.row_numbers, [row.row for row in bad])
    kept = np.flatnonzero(~wrong)
    row_of, table = _readings(kept, {each: column.values for each, column in read.items()}, mapping)
    _refuse_dark(sheet, mapping, table)
    return CellRows(
        tuple(marks[place] for place in row_of.tolist()),
        sheet.row_numbers[row_of],
        table,
        _words(sheet, mapping, "remark", row_of) or ("",) * len(row_of),
        tuple(sorted(bad, key=lambda row: row.row)),
        sheet.passed,
        _words(sheet, mapping, "grade", row_of),
        _words(sheet, mapping, "time", row_of),
        (*sheet.notes, *_notes(sheet, mapping, read)),
        mapping.errors,
    )


def _refuse_dark(sheet: Sheet, mapping: Mapping, table: dict[str, Column]) -> None:
    """A column of light in which nothing was written tells no more than none."""
    light = table.get("irradiance_w_m2", np.empty(0))
    read = any(np.isfinite(table[name]).any() for name in LIT if name in table)
    if read and not (light > 0).any() and mapping.light != UNKNOWN:
        raise SheetError([light_open(sheet.name)])


def _figures(sheet: Sheet, mapping: Mapping, each: Bound) -> Figures:
    unit = each.read_in
    assert unit is not None  # every unit is settled by now
    return figures(sheet.columns[each.column - 1], QUANTITIES[each.quantity], unit, mapping.decimal_mark)


def _bad(sheet: Sheet, each: Bound, column: Figures) -> list[BadRow]:
    name, texts = sheet.called(each.column - 1), sheet.columns[each.column - 1]
    return [
        BadRow(int(sheet.row_numbers[place]), name, texts[place][:_SHOWN], fault.reason, fault.cure)
        for place, fault in column.faults.items()
    ]


def _marks(sheet: Sheet, mapping: Mapping) -> tuple[Sequence[str], list[BadRow]]:
    """The marks; a row without one is bad, unless no column says them and rows go by their number."""
    column = next((each.column - 1 for each in mapping.bound if each.quantity == "mark"), None)
    if column is None:
        return [str(number) for number in sheet.row_numbers.tolist()], []
    marks = [text.strip() for text in sheet.columns[column]]
    if all(_WHOLE.fullmatch(mark) for mark in marks if mark):  # a spreadsheet's whole numbers
        marks = [mark.partition(".")[0] for mark in marks]
    cure = "Write the cell's mark; a second reading of a cell bears the mark of the first."
    name = sheet.called(column)
    empty = [place for place, mark in enumerate(marks) if not mark]
    return marks, [
        BadRow(int(sheet.row_numbers[place]), name, "", "The row has no mark of a cell.", cure)
        for place in empty
    ]


def _words(sheet: Sheet, mapping: Mapping, quantity: str, row_of: NDArray[np.int64]) -> tuple[str, ...]:
    """What the columns of one kind of words say, joined; empty where there is no such column."""
    columns = [sheet.columns[each.column - 1] for each in mapping.bound if each.quantity == quantity]
    if not columns:
        return ()
    if len(columns) == 1:
        return tuple(columns[0][place].strip() for place in row_of.tolist())
    said = ((column[place].strip() for column in columns) for place in row_of.tolist())
    return tuple("; ".join(filter(None, each)) for each in said)


def _readings(
    kept: NDArray[np.int64], read: dict[Bound, Column], mapping: Mapping
) -> tuple[NDArray[np.int64], dict[str, Column]]:
    """Each row's readings under one another: the place of its row, and the figures."""
    last = max((each.reading for each in read), default=1)
    parts = [_one_reading(kept, nth, read, mapping) for nth in range(1, max(last, 1) + 1)]
    order, rows, tables = [], [], []
    for nth, table in enumerate(parts):
        there = np.isfinite([table[name] for name in table if name not in SHARED and name not in GIVEN])
        taken = there.any(axis=0) if nth and there.size else np.full(kept.size, nth == 0)
        rows.append(kept[taken])
        order.append(np.flatnonzero(taken) * len(parts) + nth)
        tables.append({name: column[taken] for name, column in table.items()})
    sorting = np.argsort(np.concatenate(order), kind="stable")
    return np.concatenate(rows)[sorting], {
        name: np.concatenate([table[name] for table in tables])[sorting]
        for name in FIGURES
        if name in parts[0]
    }


def _one_reading(
    kept: NDArray[np.int64], nth: int, read: dict[Bound, Column], mapping: Mapping
) -> dict[str, Column]:
    """The figures of one reading of every row; what is shared stands in each."""
    own = {each.quantity: each for each in read if max(each.reading, 1) == nth}
    shared = {each.quantity: each for each in read if each.reading == 0 and each.quantity in SHARED}
    shared |= {each.quantity: each for each in read if each.reading < 2 and each.quantity in GIVEN[2:]}
    table = {}
    for name in _names(read, mapping):
        bound = own.get(name) or shared.get(name)
        column = read[bound][kept] if bound else np.full(kept.size, mapping.given.get(name, np.nan))
        if bound and name in _MOMENT and name in mapping.given:
            column = np.where(np.isfinite(column), column, mapping.given[name])
        table[name] = np.abs(column) if name.startswith("reverse") else column
    for current, volts in _PLACES.items():
        if current in own and (at_v := own[current].at_v) is not None:
            table[volts] = np.full(kept.size, abs(at_v))
        if current in table:
            table[volts] = np.where(np.isfinite(table[current]), table[volts], np.nan)
    return table


def _names(read: dict[Bound, Column], mapping: Mapping) -> set[str]:
    """Every figure that the table has, with the voltages that belong to its currents."""
    names = {each.quantity for each in read} | set(mapping.given)
    return names | {volts for current, volts in _PLACES.items() if current in names}


def _notes(sheet: Sheet, mapping: Mapping, read: dict[Bound, Figures]) -> list[str]:
    told = [
        f"{sheet.called(each.column - 1)}: {_fields(count)} {note}."
        for each, column in read.items()
        for note, count in column.notes.items()
    ]
    aside = Counter(sheet.called(each.column - 1) for each in mapping.bound if not each.quantity)
    told += [f"Left unread: {', '.join(aside)}."] * bool(aside)
    if not any(each.quantity == "mark" for each in mapping.bound):
        told.append("No column says the cell's mark; cells go by the number of their row.")
    said = [f"{name} {value:g}" for name, value in mapping.given.items()]
    errors = [f"{name} {words}" for name, words in accuracy_words(mapping.errors)]
    told += [f"Errors as said: {', '.join(errors)}."] * bool(errors)
    told += [f"Taken for every row that does not say it: {', '.join(said)}."] * bool(said)
    return told + ["Nobody knows in which light the cells were read."] * (mapping.light == UNKNOWN)


def _fields(count: int) -> str:
    return "1 field" if count == 1 else f"{count} fields"
