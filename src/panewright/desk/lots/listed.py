"""Every cell of a lot as a list: its figures in full sun, how well they are known, what is said of it."""

from __future__ import annotations

from panewright.desk.lots.stood import Stood
from panewright.drawing.listing import Cell, Column, Listing
from panewright.errors import FolderError, Problem
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


def content(stood: Stood, name: str) -> bytes:
    """The list as a file of that name: CSV or XLSX."""
    kind = name.lower().rpartition(".")[2]
    if kind == "csv":
        return render(CsvLeaf(name, listing(stood)))
    if kind == "xlsx":
        return render(WorkbookLeaf(name, (listing(stood),)))
    raise FolderError([Problem("A list is a CSV or XLSX file.", "Name it so.", file=name)])
