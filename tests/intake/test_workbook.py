"""Workbooks read beside another reader of them; rows without quotes read beside the language's own reader."""

from __future__ import annotations

import csv
from datetime import datetime
from io import BytesIO

import openpyxl
import pytest
import xlsxwriter
from hypothesis import given
from hypothesis import strategies as st

from panewright.intake.delimited import read_delimited
from panewright.intake.workbook import read_workbook

WORDS = st.text(
    st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"], exclude_characters="\ufffe\uffff"),
    max_size=12,
)
CELLS = st.none() | st.floats(-1e6, 1e6) | st.integers(-(10**6), 10**6) | st.booleans() | WORDS
TABLES = st.lists(st.lists(CELLS, max_size=6), min_size=1, max_size=8)


def written(rows: list[list[object]], **options: object) -> bytes:
    out = BytesIO()
    book = xlsxwriter.Workbook(out, {"strings_to_formulas": False, "strings_to_urls": False, **options})
    page = book.add_worksheet("s")
    page.write_string("A1", "Cell")
    for place, row in enumerate(rows, start=1):
        for column, value in enumerate(row):
            if value not in (None, ""):
                page.write(place, column, value)
    book.close()
    return out.getvalue()


def ours(data: bytes) -> dict[tuple[int, int], str]:
    (grid,) = read_workbook(data, "lot.xlsx")
    return {
        (number, column): text
        for number, row in zip(grid.numbers, grid.rows, strict=True)
        for column, text in enumerate(row, start=1)
        if text
    }


def alike(text: str, value: object) -> bool:
    if isinstance(value, bool):
        return text == str(value).upper()
    return float(text) == value if isinstance(value, int | float) else text == value


@given(TABLES, st.booleans())
def test_every_cell_is_what_another_reader_finds_there(rows, in_place):
    data = written(rows, in_memory=True, constant_memory=in_place)
    page = openpyxl.load_workbook(BytesIO(data), data_only=True)["s"]
    theirs = {
        (c.row, c.column): c.value for line in page.iter_rows() for c in line if c.value not in (None, "")
    }
    told = ours(data)
    assert set(told) == set(theirs)
    assert all(alike(told[place], value) for place, value in theirs.items())


@pytest.mark.parametrize("from_1904", [False, True])
@pytest.mark.parametrize("shown", ["yyyy-mm-dd", "d. mmm", 'dd/mm/yy "um" hh:mm', "[$-407]d/m/yy;@"])
def test_a_number_that_is_shown_as_a_date_is_that_date(from_1904, shown):
    out = BytesIO()
    book = xlsxwriter.Workbook(out, {"date_1904": from_1904})
    page = book.add_worksheet()
    page.write_datetime("A1", datetime(2026, 5, 9, 12), book.add_format({"num_format": shown}))
    page.write_number("B1", 46151.5, book.add_format({"num_format": '0.00 "dm";[Red]-0.00'}))
    book.close()
    assert list(ours(out.getvalue()).values()) == ["2026-05-09 12:00:00", "46151.5"]


@given(st.lists(st.lists(st.text("aE1.,- ü\t", max_size=5), min_size=1, max_size=5), min_size=1, max_size=9))
def test_rows_without_quotes_are_what_the_languages_own_reader_finds(rows):
    text = "sep=;\n" + "".join(";".join(row) + "\n" for row in rows)
    grid = read_delimited(text.encode(), "lot.csv")
    theirs = [row or [""] for row in csv.reader(text.splitlines(keepends=True)[1:], delimiter=";")]
    assert list(grid.rows[1:]) == theirs
    assert grid.numbers == tuple(range(1, len(rows) + 2))
