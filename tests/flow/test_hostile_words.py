"""Words of an order that begin like formulas stay words in every list and workbook that is written of it."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from pathlib import Path

import openpyxl
import pytest

from panewright.catalogue.offer import offer_of
from panewright.catalogue.reading import parse_family
from panewright.catalogue.row import Asked
from panewright.catalogue.work import rows_of
from panewright.desk.catalogue import content
from panewright.drawing.listing import Column, Listing
from panewright.order.parse import parse_order
from panewright.pack.pack import kit_leaves, make_pack
from panewright.panel.choose import design_panel
from panewright.paper.leaf import render
from panewright.paper.text import csv_bytes
from panewright.price.kit import as_kit
from panewright.price.offers.quote import quote
from panewright.shelf.load import load_shelf

EXAMPLES = Path(__file__).parents[2] / "examples"
STARTS = "=+-@\t\r\n＝＋－＠"
ORDER = (
    (EXAMPLES / "kiosk.toml")
    .read_text("utf-8")
    .replace('"Ticket kiosk"', '"=1+1"')
    .replace('"TK-3"', '"-TK-3"')
    .replace('"Low Ferry Stage"', '"@SUM(A1:A9)"')
    .replace('"Tarn Street Workshop"', '"+cmd|x"')
)
RANGE = (
    (EXAMPLES / "ranges" / "allotments.toml")
    .read_text("utf-8")
    .replace('"Allotment panels"', '"=1+1"')
    .replace('"Tarn Street Workshop"', '"+cmd|x"')
    .replace('cells = ["156 mm mono", "125 mm mono"]', 'cells = ["125 mm mono"]')
    .replace("columns = [2, 4]\nrows = [4, 9]", "columns = [2]\nrows = [4]")
)


def cells_of(name, data):
    """Every cell of words in a list, of every sheet; of a workbook none may be a formula."""
    if name.endswith(".csv"):
        return [cell for row in csv.reader(io.StringIO(data.decode())) for cell in row]
    book = openpyxl.load_workbook(io.BytesIO(data))
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row if cell.value is not None]
    assert [cell.value for cell in cells if cell.data_type == "f" or cell.hyperlink] == []
    return [str(cell.value) for cell in cells if cell.data_type == "s"]


def all_words(files, ending):
    return [cell for name, data in files.items() if name.endswith(ending) for cell in cells_of(name, data)]


def figures(cells):
    """What is left of cells that begin like formulas once numbers are taken out."""
    left = []
    for cell in cells:
        try:
            float(cell)
        except ValueError:
            if cell.startswith(tuple(STARTS)):
                left.append(cell)
    return left


def spoilt(rows, number=0):
    """Rows of the shelf whose names begin like formulas, each kind of start in turn."""
    named = [(row, f"{STARTS[(n + number) % 4]}{row.name}") for n, row in enumerate(rows)]
    return tuple(replace(row, name=name, part=replace(row.part, name=name)) for row, name in named)


@pytest.fixture(scope="module")
def files():
    kept = load_shelf()
    kinds = {name: spoilt(getattr(kept, name)) for name in ("sundries", "pours", "backs", "sheets")}
    shelf = replace(kept, **kinds)
    design = design_panel(parse_order(ORDER, "hostile.toml", shelf), shelf)
    quoted = quote(design, shelf)
    leaves = (*make_pack(design, quoted).leaves, *kit_leaves(as_kit(design), quoted))
    return {leaf.name: render(leaf) for leaf in leaves if leaf.name.endswith((".csv", ".xlsx"))}


def test_the_lists_of_an_order(files):
    words = all_words(files, ".csv")
    assert figures(words) == []
    assert {cell[:2] for cell in words} >= {"'=", "'+", "'-", "'@"}


def test_the_workbooks_of_an_order_keep_the_words_as_they_are(files):
    words = all_words(files, ".xlsx")
    assert {cell[:1] for cell in figures(words)} >= set("=+-@")


def test_a_catalogue():
    shelf = load_shelf()
    family = parse_family(RANGE.encode(), "hostile.toml", shelf)
    offer = offer_of(family, rows_of(family, Asked(shelf, family.quantities)), shelf)
    written = {name: content(offer, name) for name in ("catalogue.csv", "catalogue.xlsx")}
    assert figures(all_words(written, ".csv")) == []
    assert all_words(written, ".xlsx")


@pytest.mark.parametrize("start", STARTS)
def test_every_start_in_head_and_cell_of_a_plain_list(start):
    listing = Listing("l", (Column(f"{start}head"), Column("n")), ((f"{start}1+1", -5.0),))
    assert figures(cells_of("l.csv", csv_bytes(listing))) == []
