"""Every cell of a lot as a list: its figures in full sun, how well they are known, what is said of it."""

from __future__ import annotations

from panewright.desk.lots.stood import Stood
from panewright.drawing.listing import Cell, Column, Listing
from panewright.errors import FolderError, Problem
from panewright.intake.cells import CellRows
from panewright.pack.leaf import CsvLeaf, WorkbookLeaf
from panewright.paper.leaf import render

_FIGURES = (
    ("Pmp", "W", "power_w"),
    ("known to", "W", "power_sd_w"),
    ("at least", "W", "power_low_w"),
    ("at most", "W", "power_high_w"),
    ("Imp", "A", "imp_a"),
    ("Vmp", "V", "vmp_v"),
    ("Isc", "A", "isc_a"),
    ("Voc", "V", "voc_v"),
)


def listing(stood: Stood) -> Listing:
    """A row for each cell; `known to` is one standard deviation, the next two hold 95 %."""
    lot = stood.standing
    broken = -lot.cells.breakdown_v
    dark = [lot.cells.shunt_ohm, broken, broken * lot.breakdown_sd]
    arrays = [getattr(lot, name) for _, _, name in _FIGURES] + [*dark, lot.readings]
    said: dict[str, str] = {}
    for each in stood.suspects:
        said[each.mark] = " ".join(filter(None, (said.get(each.mark, ""), f"{each.kind}: {each.reason}")))
    columns = [Column("cell"), *(Column(name, unit, "number") for name, unit, _ in _FIGURES)]
    columns += [
        Column("shunt", "ohm", "number"),
        Column("breaks down at", "V", "number"),
        Column("known to", "V", "number"),
        Column("figures read", kind="count"),
        Column("grade"),
        Column("remark"),
        Column("suspected of"),
    ]
    blank = ("",) * len(lot.marks)
    grades, remarks = stood.grades or blank, stood.remarks or blank
    rows: tuple[tuple[Cell, ...], ...] = tuple(
        (
            mark,
            *(float(f"{array[k]:.5g}") for array in arrays[:-1]),
            int(lot.readings[k]),
            grades[k],
            remarks[k],
            said.get(mark, ""),
        )
        for k, mark in enumerate(lot.marks)
    )
    return Listing("cells", tuple(columns), rows)


def bad_listing(rows: CellRows) -> Listing:
    """Every row that was not read: where, what stands there, why, and what to do; then those of no cell."""
    heads = Column("row", kind="count"), *(Column(name) for name in ("column", "value", "reason", "cure"))
    bad = [(each.row, each.column, each.value, each.reason, each.cure) for each in rows.bad]
    passed = [(each.row, "", "", f"no cell: {each.reason}", "") for each in rows.passed]
    return Listing("rows not read", heads, (*bad, *passed))


def suspect_listing(stood: Stood) -> Listing:
    """Every suspect; one without a cell is of the whole lot."""
    heads = tuple(Column(name) for name in ("cell", "rows", "kind", "reason"))
    rows = tuple(
        (each.mark, ", ".join(map(str, dict.fromkeys(each.rows))), each.kind, each.reason)
        for each in stood.suspects
    )
    return Listing("suspects", heads, rows)


def content(stood: Stood, name: str) -> bytes:
    """The cells as a file of that name: CSV, or XLSX with the suspects on a sheet of their own."""
    if _kind(name) == "csv":
        return render(CsvLeaf(name, listing(stood)))
    return render(WorkbookLeaf(name, (listing(stood), suspect_listing(stood))))


def bad_content(rows: CellRows, name: str) -> bytes:
    """The rows not read as a CSV file of that name."""
    return render(CsvLeaf(name, bad_listing(rows)))


def files(stood: Stood, rows: CellRows, name: str) -> dict[str, bytes]:
    """All of it by the names of its files: a workbook of three sheets; or a CSV, and others beside it."""
    if _kind(name) == "xlsx":
        sheets = listing(stood), suspect_listing(stood), bad_listing(rows)
        return {name: render(WorkbookLeaf(name, tuple(each for each in sheets if each.rows)))}
    stem = name[: -len(".csv")]
    more = {f"{stem}-suspects.csv": suspect_listing(stood), f"{stem}-not-read.csv": bad_listing(rows)}
    found = {other: render(CsvLeaf(other, each)) for other, each in more.items() if each.rows}
    return {name: content(stood, name), **found}


def _kind(name: str) -> str:
    kind = name.lower().rpartition(".")[2]
    if kind not in ("csv", "xlsx"):
        raise FolderError([Problem("A list is a CSV or XLSX file.", "Name it so.", file=name)])
    return kind
