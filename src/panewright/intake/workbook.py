"""A workbook (XLSX) as rows of text, sheet by sheet.

Read here and not by a library: a row keeps its number; a formula without its value, a number that was taken
for a date and joined cells are all told; a cell at the far corner of an empty sheet costs nothing.
"""

from __future__ import annotations

import posixpath
import re

from panewright.intake.grid import Grid, refuse
from panewright.intake.markup import Cells, elements, strings, walk
from panewright.intake.package import Package

_DATES = frozenset((*range(14, 23), *range(27, 37), *range(45, 48), *range(50, 59)))  # built-in formats
_QUOTED = re.compile(r'"[^"]*"|\[[^\]]*\]|\\.')


def read_workbook(data: bytes, name: str) -> tuple[Grid, ...]:
    """Every sheet of a workbook that holds anything."""
    package = Package(data, name)
    book = package.read("xl/workbook.xml")
    if not book:
        cure = "Save the table as XLSX or CSV."
        kind = (
            "an OpenDocument file"
            if "content.xml" in package.members
            else "a packed file but no XLSX workbook"
        )
        raise refuse(name, f"This is {kind}.", cure)
    shared = strings(package.read("xl/sharedStrings.xml"), name)
    from_1904 = any(own.get("date1904") in ("1", "true") for own in elements(book, name, "workbookPr"))
    dates = _date_styles(package)
    grids = []
    for title, member in _sheets(package, book):
        cells = Cells(f"{name}, sheet {title}", shared, dates, from_1904)
        if content := package.read(member):
            walk(content, cells.name, cells.start, cells.end, cells.text)
        if any(cells.rows):
            grids.append(Grid(title, tuple(cells.rows), tuple(cells.numbers), tuple(cells.merged)))
    if not grids:
        raise refuse(name, "No sheet of the workbook holds anything.", "Save the table again.")
    return tuple(grids)


def _sheets(package: Package, book: bytes) -> list[tuple[str, str]]:
    """Each sheet's title and where it lies in the package."""
    ties = elements(package.read("xl/_rels/workbook.xml.rels"), package.name, "Relationship")
    targets = {own.get("Id"): own.get("Target", "") for own in ties}
    found = []
    for own in elements(book, package.name, "sheet"):
        tie = next((value for key, value in own.items() if key.endswith(":id")), None)
        target = targets.get(tie, "")
        place = target.lstrip("/") if target.startswith("/") else posixpath.normpath(f"xl/{target}")
        found.append((own.get("name", ""), place))
    return found


def _date_styles(package: Package) -> frozenset[int]:
    """The styles under which a number is shown as a date."""
    content = package.read("xl/styles.xml")
    if not content:
        return frozenset()
    own = {
        int(each.get("numFmtId", 0))
        for each in elements(content, package.name, "numFmt")
        if set("ymdh") & set(_QUOTED.sub("", each.get("formatCode", "").lower()).replace("general", ""))
    }
    formats: list[int] = []
    inside = [False]

    def start(tag: str, attributes: dict[str, str]) -> None:
        inside[0] = inside[0] or tag == "cellXfs"
        if inside[0] and tag == "xf":
            formats.append(int(attributes.get("numFmtId", 0)))

    def end(tag: str) -> None:
        inside[0] = inside[0] and tag != "cellXfs"

    walk(content, package.name, start, end, lambda _: None)
    return frozenset(place for place, number in enumerate(formats) if number in _DATES | own)
