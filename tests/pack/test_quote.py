"""The price of a whole design: sums, bars, and no float in money."""

from collections import Counter
from dataclasses import fields
from decimal import Decimal

import pytest

from panewright.pack.pages.lists import _counted, _share
from panewright.price.cuts import rail_pieces
from panewright.price.hours import Work
from panewright.price.money import cents


def test_the_price_of_the_order_is_that_of_one_panel_times_their_number(made):
    assert made.quote.price_order == made.quote.price_each * made.design.order.job.panels


def test_parts_labour_overhead_and_margin_add_up_to_the_price(made):
    quote, money = made.quote, made.design.order.money
    assert quote.parts == sum(line.cost for line in quote.lines if line.cost is not None)
    assert quote.labour == cents(quote.hours * money.labour_per_hour)
    assert quote.overhead == cents((quote.parts + quote.labour) * money.overhead)
    total = quote.parts + quote.labour + quote.overhead + quote.margin
    assert abs(quote.price_order - total) <= Decimal("0.005") * quote.panels


def test_no_money_is_a_float(made):
    money = {"price", "cost", "cost_one", "labour", "overhead", "margin", "parts", "parts_alone"}
    money |= {"price_each", "price_order", "price_per_watt"}
    for record in (made.quote, *made.quote.lines):
        for name in money & {field.name for field in fields(record)}:
            assert getattr(record, name) is None or isinstance(getattr(record, name), Decimal), name


def test_every_rail_of_every_panel_is_cut_once(made):
    wanted = Counter()
    for piece in rail_pieces(made.design, made.quote.panels):
        wanted[piece.length_mm] += piece.quantity
    cut = Counter(piece.length_mm for bar in made.quote.cuts.bars for piece in bar.pieces)
    assert cut == wanted
    assert sum(cut.values()) == 4 * made.quote.panels


def test_as_many_bars_are_bought_as_the_cut_list_cuts(made):
    (rails,) = [line for line in made.quote.lines if line.name == made.design.structural.rail.name]
    assert rails.buy == len(made.quote.cuts.bars)


def test_enough_cells_are_bought_and_a_few_spare(made):
    (cells,) = [line for line in made.quote.lines if line.group == "cells"]
    used = len(made.design.layup.cells) * made.quote.panels / made.design.order.cell.parts
    assert used < cells.buy < 1.25 * used + 3
    assert made.quote.cells_bought == cells.buy


def test_lists_tell_the_same_as_the_quote(made):
    names = [listing.name for listing in made.quote.listings]
    assert names == ["Parts", "Cut list", "Glass", "Ribbon", "Hours"]
    parts, cuts, glass, ribbon, hours = made.quote.listings
    assert len(parts.rows) == len(made.quote.lines)
    assert len(cuts.rows) == 4 * made.quote.panels
    assert glass.rows[0][4] == made.quote.panels
    layup = made.design.layup
    assert sum(row[3] for row in ribbon.rows) == len((*layup.tabs, *layup.buses, *layup.tails))
    assert sum(row[4] for row in hours.rows) == sum(work.minutes for work in made.quote.work)


def test_the_shelf_has_a_price_for_every_part_it_chose_itself(made):
    assert made.quote.unpriced == 0
    assert made.quote.notes == ()


def test_the_parts_weigh_about_what_the_design_weighs(made):
    """Screws, brackets and clips are on the parts list only; what carries the mass is on both."""
    listed = sum(line.mass_kg for line in made.quote.lines)
    assert listed == pytest.approx(made.design.label.mass_kg, rel=0.08)


@pytest.mark.parametrize(
    ("number", "per", "words"),
    [
        (1, "trial patches", "1 trial patch"),
        (2, "trial patches", "2 trial patches"),
        (1, "rails", "1 rail"),
        (1, "kits in cartons", "1 kit in a carton"),
    ],
)
def test_what_work_is_counted_in_has_its_singular(number, per, words):
    assert _counted(Work("x", Decimal(number), per, Decimal(1)), "metric") == words


@pytest.mark.parametrize(("share", "words"), [("0.125", "12.5 %"), ("0.15", "15 %"), ("0", "0 %")])
def test_a_share_of_the_price_is_told_as_ordered(share, words):
    assert _share(Decimal(share)) == words
