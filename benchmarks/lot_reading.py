"""A lot of 100,000 rows read whole, beside pandas: CSV of two habits, and a workbook.

The peer is told the mark of columns, of decimals and of thousands, the place of the header and the letters.
Ours finds them, proposes the columns, and comes to SI with every bad row told. The peer stops at columns of
figures and words, and takes a column with one bad field for words.
"""

from __future__ import annotations

import sys
from functools import partial
from io import BytesIO
from pathlib import Path
from typing import Any

from clock import best_s
from row import Row

from panewright.intake.cells import CellRows
from panewright.intake.proposal import propose
from panewright.intake.reading import read_cells
from panewright.intake.sheet import read_sheet

sys.path.append(str(Path(__file__).parents[1] / "tests" / "intake"))

ROWS = 100_000
MOST_S = 5.0


def rows() -> list[Row]:
    """Two habits of CSV, one workbook."""
    us, continental, book = us_csv(), continental_csv(), workbook()
    commas = {"sep": ",", "thousands": ","}
    semicolons = {"sep": ";", "decimal": ",", "encoding": "cp1252"}
    return [
        _csv("milliamps with marks of thousands, commas", us, commas),
        _csv("decimal commas, two readings a cell, semicolons", continental, semicolons),
        _book(book),
    ]


def read(data: bytes, name: str) -> CellRows:
    """All that is done with a file, from bytes to SI."""
    sheet = read_sheet(data, name)
    return read_cells(sheet, propose(sheet))


def us_csv() -> bytes:
    """The invented lot from the barn roof, over and over."""
    from invented_lots import us_csv

    header, *cells = us_csv().decode("utf-8-sig").split("\r\n")[1:-1]
    return "\r\n".join([header, *_many(cells)]).encode()


def continental_csv() -> bytes:
    """The invented lot from the Scheune, over and over, without its titles, units and mean."""
    from invented_lots import continental_csv

    header, units, *cells = continental_csv().decode("cp1252").split("\r\n")[3:-2]
    joined = [f"{name} {unit}" for name, unit in zip(header.split(";"), units.split(";"), strict=True)]
    return "\r\n".join([";".join(joined), *_many(cells)]).encode("cp1252")


def workbook() -> bytes:
    """The same cells as numbers in a workbook."""
    import xlsxwriter

    _, *cells = us_csv().decode().split("\r\n")
    out = BytesIO()
    book = xlsxwriter.Workbook(out, {"constant_memory": True})
    page = book.add_worksheet()
    page.write_row(0, 0, ["Cell", "Voc (mV)", "Vmp (mV)", "Light (W/m2)", "Temp (degF)", "Bin"])
    for place, line in enumerate(cells, start=1):
        page.write_row(place, 0, [f"C{place}", 611.3, 512.4, 981.5, 77 + place % 7, line[-2:-1]])
    book.close()
    return out.getvalue()


def _many(cells: list[str]) -> list[str]:
    return (cells * (ROWS // len(cells) + 1))[:ROWS]


def _csv(habit: str, data: bytes, told: dict[str, Any]) -> Row:
    import pandas

    ours = partial(read, data, "lot.csv")
    peer_s = best_s(lambda: pandas.read_csv(BytesIO(data), **told), 2)
    return Row(f"{_rows_said(ours())}: {habit}", best_s(ours, 2), "pandas.read_csv", peer_s, MOST_S)


def _book(data: bytes) -> Row:
    import pandas

    ours = partial(read, data, "lot.xlsx")
    peer_s = best_s(lambda: pandas.read_excel(BytesIO(data)), 1)
    return Row(
        f"{_rows_said(ours())}: a workbook", best_s(ours, 1), "pandas.read_excel", peer_s, 2 * MOST_S, 1.0
    )


def _rows_said(cells: CellRows) -> str:
    return f"{ROWS} rows read, {len({each.row for each in cells.bad})} of them bad"


if __name__ == "__main__":
    from table import told

    for line in rows():
        print(told(line))
