"""Prices of the shelf reach the choice of ribbon."""

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from panewright.order.parse import parse_order
from panewright.panel.choose import design_panel
from panewright.panel.electric.electrical import PARTS_OVER_CELLS, rank_tabs, read_cells, worth_of
from panewright.ribbon.resistance import kg_per_m
from panewright.shelf.load import load_shelf

SHELF = load_shelf()
JETTY = (Path(__file__).parents[2] / "examples" / "jetty.toml").read_text("utf-8")
ORDER = parse_order(JETTY, "jetty.toml", SHELF)


def times(rows, factor):
    return tuple(replace(row, price=row.price * Decimal(factor)) for row in rows)


def ranked(shelf, order=ORDER):
    return rank_tabs(order, shelf, read_cells(order), 2.0)


def test_a_watt_is_worth_four_times_its_cells():
    row = next(row for row in SHELF.cells if row.name == ORDER.cell.name)
    watts = row.part.nameplate.imp_a * row.part.nameplate.vmp_v
    worth = worth_of(ORDER, SHELF, SHELF.tabs)
    assert worth.per_watt == pytest.approx(PARTS_OVER_CELLS * float(row.price) / watts)
    assert worth.per_metre == tuple(float(row.price) for row in SHELF.tabs)


def test_dear_copper_makes_the_tab_smaller():
    usual, dear = ranked(SHELF)[0], ranked(replace(SHELF, tabs=times(SHELF.tabs, 20)))[0]
    copper = [row.strip.width_mm * row.strip.thickness_mm for row in (dear, usual)]
    assert copper[0] < copper[1]
    assert dear.passed


def test_dear_cells_make_the_tab_lose_less():
    usual, dear = ranked(SHELF)[0], ranked(replace(SHELF, cells=times(SHELF.cells, 20)))[0]
    assert dear.total_w < usual.total_w


def test_ribbon_sold_by_the_kilogram_is_as_dear_as_by_the_metre():
    by_mass = tuple(
        replace(row, sold_by="kilogram", price=row.price / Decimal(kg_per_m(row.part))) for row in SHELF.tabs
    )
    assert worth_of(ORDER, SHELF, by_mass).per_metre == pytest.approx(
        worth_of(ORDER, SHELF, SHELF.tabs).per_metre
    )


def test_without_a_price_of_cells_or_ribbon_watts_alone_decide():
    free = replace(SHELF, cells=times(SHELF.cells, 0))
    by_piece = tuple(replace(row, sold_by="each") for row in SHELF.tabs)
    for shelf in (free, replace(SHELF, tabs=by_piece)):
        assert worth_of(ORDER, shelf, shelf.tabs) is None
        best = ranked(shelf)[0]
        assert best.money is None
        assert best.total_w == min(row.total_w for row in ranked(shelf) if row.passed)


def test_a_cell_the_shelf_lacks_is_valued_by_the_others():
    strange = replace(ORDER, cell=replace(ORDER.cell, name="something else"))
    every = sorted(worth_of(replace(ORDER, cell=row.part), SHELF, SHELF.tabs).per_watt for row in SHELF.cells)
    assert every[0] <= worth_of(strange, SHELF, SHELF.tabs).per_watt <= every[-1]


def test_money_and_the_count_of_tabs_are_told():
    told = {choice.question: choice for choice in design_panel(ORDER, SHELF).weighed}
    tab, bus = told["Which tabbing ribbon?"], told["Which bus ribbon?"]
    for choice in (tab, bus):
        assert choice.columns[-2:] == ("Its price", "All counted")
        assert choice.keys[-2:] == ("price_eur", "counted_eur")
        counted = [row[-1] for row in choice.rows_si]
        assert counted[0] == min(counted)
    assert "Every busbar gets a tab: on 1 of 2 a cell loses" in tab.why
