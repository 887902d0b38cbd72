"""Lists of an array: numbers stay numbers, words stay words, and all are the plan's."""

from __future__ import annotations

import io
from decimal import Decimal

import openpyxl
import pytest

from invented_plans import Invented, made
from panewright.pack.array_book.book import array_leaves
from panewright.pack.array_book.listings import buying_listing, cables_listing, energy_listing, listings
from panewright.pack.leaf import WorkbookLeaf
from panewright.paper.leaf import render

HOSTILE = '=HYPERLINK("http://x","{}")'


@pytest.fixture(scope="module")
def plan():
    return made(Invented(4, 3, 2, spare=1, columns=4))


def test_a_serial_that_looks_like_a_formula_stays_words():
    leaves = array_leaves(made(Invented(1, 2, serial=HOSTILE, name="=1+1")))
    book = next(leaf for leaf in leaves if isinstance(leaf, WorkbookLeaf))
    sheets = openpyxl.load_workbook(io.BytesIO(render(book)))
    cells = [cell for sheet in sheets for row in sheet.iter_rows() for cell in row]
    assert any(cell.value == HOSTILE.format(0) for cell in cells)
    assert not any(cell.data_type == "f" for cell in cells)


def test_energy_by_month_is_the_years(plan):
    listing = energy_listing(plan)
    given = [column.name for column in listing.columns].index("given")
    assert sum(row[given] for row in listing.rows) == pytest.approx(plan.year.kwh, abs=1e-4)
    for row in listing.rows:
        assert row[1] - sum(row[2:given]) == pytest.approx(row[given], abs=1e-4)


def test_what_is_bought_counts_wire_plugs_and_fuses_of_the_plan(plan):
    rows = {row[0]: row[1] for row in buying_listing(plan).rows}
    assert rows["plug with its socket"] == plan.connector_pairs
    assert rows["string fuse 15 A"] == sum(fuse.needed for fuse in plan.fuses) == 4
    wire = {name: metres for name, metres in rows.items() if name.startswith("single conductor")}
    assert list(wire.values()) == [float(metres) for metres in plan.metres.values()]
    assert not any("blocking" in name for name in rows)


def test_lengths_are_feet_where_the_site_asks_for_them():
    metric = cables_listing(made(Invented(family="NEC")))
    feet = cables_listing(made(Invented(family="NEC", units="us")))
    at = [column.head for column in feet.columns].index("length one way, ft")
    for one, other in zip(metric.rows, feet.rows, strict=True):
        assert other[at] == pytest.approx(one[at] / 0.3048, abs=1e-3)
        assert isinstance(other[-1], Decimal)


def test_every_list_has_rows_and_no_figure_that_is_none(plan):
    for listing in listings(plan):
        assert listing.rows, listing.name
        for row in listing.rows:
            assert all(
                not isinstance(cell, float) or (cell == cell and abs(cell) != float("inf")) for cell in row
            )
