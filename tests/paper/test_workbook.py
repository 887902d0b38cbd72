"""A workbook is read back by another library: numbers as numbers, words never as formulas."""

import io
import zipfile
from decimal import Decimal

import openpyxl
import pytest

from panewright.drawing.listing import Column, Listing
from panewright.paper.workbook import xlsx

COLUMNS = (
    Column("part"),
    Column("length", "mm", "number"),
    Column("price", "EUR", "money"),
    Column("n", "", "count"),
)
ROWS = (
    ("rail", 1637.25, Decimal("12.50"), 2),
    ("=1+1", None, Decimal("0.1"), 1),
    ("http://a.b", float("nan"), None, 0),
)
LIST = Listing("cut list", COLUMNS, ROWS)


def read(content):
    return openpyxl.load_workbook(io.BytesIO(content))


def test_numbers_are_numbers_and_words_are_words():
    sheet = read(xlsx([LIST]))["cut list"]
    rows = list(sheet.iter_rows(values_only=True))
    assert rows[0] == ("part", "length, mm", "price, EUR", "n")
    assert rows[1] == ("rail", 1637.25, 12.5, 2)
    assert rows[2][0] == "=1+1"
    assert sheet["A3"].data_type == "s"
    assert rows[3][1] is None


def test_nothing_is_a_formula_or_a_link():
    with zipfile.ZipFile(io.BytesIO(xlsx([LIST]))) as parts:
        sheet = parts.read("xl/worksheets/sheet1.xml")
    assert b"<f>" not in sheet
    assert b"hyperlink" not in sheet


def test_the_same_lists_give_the_same_bytes():
    assert xlsx([LIST, LIST]) == xlsx([LIST, LIST])


@pytest.mark.parametrize("name", ["a/b:c*[d]?", "x" * 80, "", "History", "'quoted'"])
def test_any_name_becomes_a_name_that_is_allowed(name):
    names = read(xlsx([Listing(name, COLUMNS, ROWS)] * 3)).sheetnames
    assert len({one.lower() for one in names}) == 3
    assert all(0 < len(one) <= 31 for one in names)


def test_a_workbook_of_no_lists_is_refused():
    with pytest.raises(ValueError, match="one list"):
        xlsx([])


def test_a_note_stands_above_the_heads_of_every_sheet():
    book = read(xlsx([LIST, LIST], "NOT PROVEN"))
    for sheet in book.worksheets:
        assert sheet["A1"].value == "NOT PROVEN"
        assert [cell.value for cell in sheet[2]] == [column.head for column in COLUMNS]
        assert sheet["B3"].value == 1637.25
        assert sheet.freeze_panes == "A3"


def test_a_number_is_shown_with_all_its_digits_and_no_stray_point():
    """A tenth of a gram in kilograms was shown as "0." and forty as "40."."""
    listing = Listing("Mass", (Column("Mass", "kg", "number"),), ((0.0001,), (40,)))
    sheet = read(xlsx([listing]))["Mass"]
    assert [(cell.value, cell.number_format) for cell in sheet["A"][1:]] == [
        (0.0001, "General"),
        (40, "General"),
    ]
