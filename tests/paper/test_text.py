"""A plain-text list is read back, and no cell of words is a formula to a spreadsheet."""

import csv
import io
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.drawing.listing import Column, Listing
from panewright.paper.text import csv_bytes


def read(content):
    return list(csv.reader(io.StringIO(content.decode("utf-8"), newline="")))


def one(cell, kind="text"):
    return Listing("l", (Column("c", "", kind),), ((cell,),))


@pytest.mark.parametrize("cell", ["=1+1", "+49", "-x", "@sum", "\t=1", "\r=1"])
def test_words_that_look_like_formulas_get_an_apostrophe(cell):
    assert read(csv_bytes(one(cell)))[1] == [f"'{cell}"]


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_numbers_read_back_to_the_last_digit(number):
    assert float(read(csv_bytes(one(number, "number")))[1][0]) == number


def test_money_keeps_its_cents():
    assert read(csv_bytes(one(Decimal("1234.50"), "money")))[1] == ["1234.50"]


@given(st.lists(st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\x00")), min_size=1))
def test_words_read_back_as_typed(cells):
    listing = Listing("l", (Column("c"),), tuple((cell,) for cell in cells))
    back = [row[0].removeprefix("'") if row else "" for row in read(csv_bytes(listing))[1:]]
    assert back == [cell.removeprefix("'") for cell in cells]


def test_lines_end_as_rfc_4180_says():
    content = csv_bytes(Listing("l", (Column("a"), Column("b", "mm")), (("x,y", 'say "z"'), (None, 2))))
    assert content == b'a,"b, mm"\r\n"x,y","say ""z"""\r\n,2\r\n'


@pytest.mark.parametrize("number", [float("nan"), float("inf"), Decimal("NaN")])
def test_what_is_not_a_number_stays_empty(number):
    assert csv_bytes(Listing("l", (Column("a"), Column("b")), ((number, 1),))).splitlines()[1] == b",1"
