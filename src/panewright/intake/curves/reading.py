"""A curve's file read by its mapping: every row becomes a point in SI, or is told with its reason.

A row whose voltage or current cannot be read is left out. A row of which only light, heat or time cannot be
read stays a point without them; the field is told. A row in which the load idles, by its own log, is no
point.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from panewright.errors import Problem, SheetError
from panewright.intake.cells import BadRow
from panewright.intake.curves.blocks import Block, Blocks, PassedRows
from panewright.intake.curves.by_load import charged, current_by_load, farad
from panewright.intake.curves.figured import FiguredTable, Mask, idle_rows, rows_of_each
from panewright.intake.curves.mapping import (
    CLOCK,
    CurveMapping,
    Taken,
    groups,
    of_group,
    refuse_unfit,
)
from panewright.intake.curves.moments import elapsed_s
from panewright.intake.curves.naming import of_cells, way
from panewright.intake.curves.quantity import QUANTITIES
from panewright.intake.curves.said import said_of
from panewright.intake.curves.sweeps import Column, SweepRead, SweepsRead
from panewright.intake.quantity import Quantity
from panewright.intake.written import Figures, figures

_SHOWN = 80
_BESIDE = ("irradiance_w_m2", "cell_c", "back_c", "air_c")
_TIME = Quantity("time", "time", "time", 0.0, 1e12)


def read_sweeps(blocks: Blocks, mapping: CurveMapping) -> SweepsRead:
    """Every sweep of a file; `SheetError` where a column is not settled, or no point is left.

    >>> from panewright.intake.curves.blocks import read_blocks
    >>> from panewright.intake.curves.proposal import propose
    >>> blocks = read_blocks(b"G: 812 W/m2\\nU [V];I [mA]\\n0,0;3100\\n0,5;OL\\n19;2,9e3\\n", "curve.csv")
    >>> read = read_sweeps(blocks, propose(blocks))
    >>> sweep, = read.sweeps
    >>> sweep.voltage_v.tolist(), sweep.current_a.tolist(), sweep.said.during["irradiance_w_m2"]
    ([0.0, 19.0], [3.1, 2.9], 812.0)
    >>> print(read.bad[0])
    row 4, I [mA]: 'OL': The meter was overloaded: it shows no figure. Read it again in a wider range of the meter, or leave the field empty.
    """  # noqa: E501
    refuse_unfit(mapping, blocks)
    tables = [_table(block, mapping) for block in blocks.blocks]
    sweeps: list[SweepRead] = []
    bad, passed = list(blocks.bad), list(blocks.passed)
    for table in tables:
        found, wrong, idle = _of_table(table)
        sweeps += found
        bad += wrong
        passed += idle
    if not sweeps:
        raise _none_left(blocks, bad)
    ordered = sorted(passed, key=lambda each: each.first)
    notes = (*blocks.notes, *_notes(tables))
    return SweepsRead(
        blocks.name,
        _named(sweeps),
        mapping.counted,
        tuple(sorted(bad, key=lambda row: row.row)),
        tuple(ordered),
        notes,
    )


def _none_left(blocks: Blocks, bad: list[BadRow]) -> SheetError:
    first = f" The first: {bad[0]}" if bad else ""
    reason = f"No row has both a voltage and a current that can be read.{first}"
    cure = "Write both in every row, or say in a kept mapping which columns they are."
    return SheetError([Problem(reason, cure, file=blocks.name, line=int(blocks.blocks[0].row_numbers[0]))])


def _table(block: Block, mapping: CurveMapping) -> FiguredTable:
    columns = mapping.columns_of(block)
    assert columns is not None  # refused before
    read = {each: _figures(block, each, mapping) for each in columns if each.kind and each.settled}
    return FiguredTable(block, columns, read, mapping)


def _figures(block: Block, each: Taken, mapping: CurveMapping) -> Figures:
    texts = block.columns[each.column - 1]
    if each.unit == CLOCK:
        return Figures(elapsed_s(texts))
    unit = each.unit_known
    assert unit is not None  # only settled columns are read
    quantity = _TIME if each.quantity == "time" else QUANTITIES[each.quantity]
    return figures(texts, quantity, unit, mapping.decimal_mark)


def _of_table(table: FiguredTable) -> tuple[list[SweepRead], list[BadRow], list[PassedRows]]:
    """The sweeps of one block, its bad fields, and the rows that are no points."""
    idle = idle_rows(table)
    sweeps: list[SweepRead] = []
    passed = _runs(table.block, idle, "the load idles")
    for nth in groups(table.columns):
        volts, amperes, wrong = _point_figures(table, nth)
        there = np.isfinite(volts) & np.isfinite(amperes)
        empty = ~there & ~wrong & ~idle
        of = f" of sweep {nth}" if nth else ""
        why = (
            "its voltage went into the slope of the point beside it"
            if charged(table)
            else f"no voltage or no current{of} stands in it"
        )
        passed += _runs(table.block, empty, why)
        sweeps += _parts(table, nth, (volts, amperes), there & ~idle)
    return sweeps, _bad(table), passed


def _point_figures(table: FiguredTable, nth: int) -> tuple[Column, Column, Mask]:
    """Voltage and current of every row, and which rows have a fault in either."""
    volts, amperes = (of_group(table.columns, name, nth) for name in ("voltage_v", "current_a"))
    assert volts is not None  # refused before
    used = [volts]
    if amperes is not None:
        used.append(amperes)
        current = table.read[amperes].values
    else:
        current, by = current_by_load(table, nth)
        used.append(by)
    wrong = np.zeros(len(table.block), dtype=bool)
    for each in used:
        wrong[list(table.read[each].faults)] = True
    return table.read[volts].values, current, wrong


def _parts(table: FiguredTable, nth: int, points: tuple[Column, Column], taken: Mask) -> Iterator[SweepRead]:
    """A sweep for each number of sweep and each serial that columns say, in the order of their first rows."""
    for label, each in rows_of_each(table).items():
        rows = each[taken[each]]
        if rows.size:
            said = " ".join(text.strip() for text in label) if label else _said_sweep(table, nth)
            yield _sweep(table, nth, points, rows, said)


def _said_sweep(table: FiguredTable, nth: int) -> str:
    """The sweep's number as a line above says it, of several side by side each its own."""
    said = [fact for fact in table.block.facts if fact.quantity == "sweep"]
    row = [fact.text for fact in said if fact.row == said[-1].row]
    if nth:
        return row[nth - 1] if len(row) == len(groups(table.columns)) else ""
    return row[-1] if row else ""


def _sweep(
    table: FiguredTable, nth: int, points: tuple[Column, Column], rows: NDArray[np.int64], label: str = ""
) -> SweepRead:
    numbers = table.block.row_numbers[rows]
    time = of_group(table.columns, "time", nth)
    beside = {name: of_group(table.columns, name, nth) for name in _BESIDE}
    columns = {name: table.read[each].values[rows] for name, each in beside.items() if each}
    volts, amperes = points
    current = of_group(table.columns, "current_a", nth)
    return SweepRead(
        _called(table, nth, label),
        numbers,
        volts[rows],
        amperes[rows],
        time_s=table.read[time].values[rows] if time else None,
        said=said_of(table.block, table.columns, table.mapping, rows),
        cells_named=_cells_named(table, beside["cell_c"]),
        rising=way(f"{label} {current.header if current and nth else ''}"),
        **columns,
    )


def _cells_named(table: FiguredTable, column: Taken | None) -> bool:
    """Whether the column of a heat, else every line that says one, names the cells; a given figure does."""
    if column is not None:
        return of_cells(column.header)
    facts = [fact for fact in table.block.facts if fact.quantity == "cell_c"]
    return "cell_c" in table.mapping.given or all(of_cells(fact.text.partition(": ")[0]) for fact in facts)


def _called(table: FiguredTable, nth: int, label: str) -> str:
    parts = [
        table.block.sheet and f"sheet {table.block.sheet}",
        label and f"sweep {label}",
        nth and f"column {nth}",
    ]
    return ", ".join(filter(None, parts))  # type: ignore[arg-type]


def _named(sweeps: list[SweepRead]) -> tuple[SweepRead, ...]:
    """Each with a name of its own, by the rows it stands in."""
    return tuple(replace(each, name=f"{each.name}{_rows(each)}") for each in sweeps)


def _rows(each: SweepRead) -> str:
    comma = ", " if each.name else ""
    return f"{comma}rows {each.row_numbers[0]} to {each.row_numbers[-1]}"


def _runs(block: Block, rows: Mask, reason: str) -> list[PassedRows]:
    """Neighbouring rows of a mask, told together."""
    places = np.flatnonzero(rows)
    if not places.size:
        return []
    parted = np.split(places, np.flatnonzero(np.diff(places) > 1) + 1)
    numbers = block.row_numbers
    return [PassedRows(int(numbers[run[0]]), int(numbers[run[-1]]), reason) for run in parted]


def _bad(table: FiguredTable) -> list[BadRow]:
    return [
        BadRow(
            int(table.block.row_numbers[place]),
            table.block.called(each.column - 1),
            table.block.columns[each.column - 1][place][:_SHOWN],
            fault.reason,
            fault.cure,
        )
        for each, column in table.read.items()
        for place, fault in column.faults.items()
    ]


def _notes(tables: list[FiguredTable]) -> Iterator[str]:
    for table in {table.block.header: table for table in reversed(tables)}.values():
        for each, column in table.read.items():
            for note, count in column.notes.items():
                fields = "1 field" if count == 1 else f"{count} fields"
                yield f"{table.block.called(each.column - 1)}: {fields} {note}."
        aside = [table.block.called(each.column - 1) for each in table.columns if not each.quantity]
        if aside:
            yield f"Left unread: {', '.join(dict.fromkeys(aside))}."
    for fact in dict.fromkeys(fact for table in tables for fact in table.block.facts if fact.doubt):
        yield f"row {fact.row}, {fact.text}: {fact.doubt}"
    for table in tables:
        if charged(table):
            size = f"{farad(table):.3g} F"
            yield f"The current is that into a capacitor of {size}, by the slope of its voltage."
            yield "Name that capacitor as the ammeter of a rating: all currents are as wrong as its size."
    given = tables[0].mapping.given
    if given:
        yield f"Taken for every point: {', '.join(f'{name} {value:g}' for name, value in given.items())}."
