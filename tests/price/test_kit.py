"""A kit: what the customer brings leaves the price and nothing else; each box is enough by itself."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

import examples
from panewright.order.terms import BROUGHT, Kit
from panewright.pack.sent import boxed as in_a_box
from panewright.price.bill import Need
from panewright.price.buying.buying import Stores, purchases
from panewright.price.buying.open_orders import asked_of, lying_cut
from panewright.price.kit import amount_in_box, as_kit, left, steps_of_shop, work_of_customer, work_of_shop
from panewright.price.offers.quote import quote
from panewright.shelf.load import load_shelf

SHELF = load_shelf()


def brings(design, *groups, sold_as="kit"):
    return replace(design, order=replace(design.order, kit=Kit(sold_as, groups)))


def test_what_the_customer_brings_leaves_the_price_and_no_drawing(design):
    whole, less = quote(design, SHELF), quote(brings(design, "glass", sold_as="finished panel"), SHELF)
    glass = next(line for line in whole.lines if line.group == "glass")
    assert less.parts == whole.parts - glass.cost
    assert [line.name for line in less.brought] == [glass.name]
    assert less.hours == whole.hours
    assert brings(design, "glass").layup == design.layup


def test_every_line_is_either_ours_or_theirs(design):
    whole = quote(design, SHELF)
    split = quote(brings(design, "cells", "frame", sold_as="finished panel"), SHELF)
    names = sorted(line.name for line in whole.lines)
    assert sorted(line.name for line in (*split.lines, *split.brought)) == names
    assert split.unpriced == whole.unpriced


def test_work_is_shared_out_and_none_is_lost(design):
    whole, kit = quote(design, SHELF), quote(as_kit(design), SHELF)
    minutes = sum(work.minutes for work in (*kit.work, *kit.customer_work))
    packing = sum(work.minutes for work in kit.work if work.per == "kits")
    assert packing > 0
    patches = [
        sum(w.minutes for w in made if w.per == "trial patches") for made in (whole.work, kit.customer_work)
    ]
    assert patches[1] == design.order.job.panels * patches[0] > 0  # each who builds pours his own
    assert minutes - packing - patches[1] == sum(work.minutes for work in whole.work) - patches[0]
    assert kit.price_each < whole.price_each


def test_with_cells_brought_the_shop_sorts_none(design):
    kit = quote(brings(design, "cells"), SHELF)
    assert not any(work.step.startswith("Look over") for work in kit.work)
    assert any(work.step.startswith("Look over") for work in kit.customer_work)


def test_cells_are_told_as_many_as_the_boxes_hold(design):
    kit = quote(as_kit(design), SHELF)
    (cells,) = (line for line in kit.lines if line.group == "cells")
    assert kit.cells_bought == cells.buy
    whole, theirs = quote(design, SHELF), quote(brings(design, "cells", sold_as="finished panel"), SHELF)
    assert theirs.cells_bought == whole.cells_bought > 0


def test_what_is_bought_for_kits_fills_their_boxes(design):
    """Ten kits: of every part but bars, as much is bought as the quote puts into ten boxes."""
    job = replace(design.order.job, panels=10)
    kits = as_kit(replace(design, order=replace(design.order, job=job)))
    asked = asked_of(kits, SHELF, panels=10)
    bought = {each.sold_as or each.item: each.gross for each in purchases([asked], Stores({}), {})}
    boxed = {line.name: line.buy for line in quote(kits, SHELF).lines if line.use != "rail"}
    assert {name: bought[name] for name in boxed} == boxed


def test_the_spare_cells_of_boxes_and_of_the_bench_are_added(design):
    loose = asked_of(design, SHELF, panels=3)
    kits = replace(asked_of(as_kit(design), SHELF, panels=3), order="kits")
    cells = [
        next(each.gross for each in purchases(orders, Stores({}), {}) if each.group == "cells")
        for orders in ([loose], [kits], [loose, kits])
    ]
    assert cells[0] < cells[1]
    assert cells[2] == cells[0] + cells[1]


def test_ribbon_cut_for_a_kit_leaves_what_its_box_holds_beyond(design):
    asked = replace(asked_of(as_kit(design), SHELF, panels=1), order="K")
    tab = next(need for need in asked.needs if need.use == "tab")
    drawn = asked.bare[tab.name, tab.sold_by]
    cut = {("K", tab.name, "tab", float(drawn * 1000), 0.0): 2}
    left_over = lying_cut(asked, cut, 1)
    assert float(left_over.net(tab)) == pytest.approx(float(tab.one - drawn))


def test_rails_that_the_customer_brings_are_sawn_by_the_customer():
    assert steps_of_shop(Kit("kit")) == {"cut-rails", "drill-rails"}
    assert steps_of_shop(Kit("kit", ("frame",))) == steps_of_shop(Kit()) == frozenset()


@given(st.sets(st.sampled_from(BROUGHT)), st.booleans())
def test_shop_and_customer_do_every_count_once(groups, is_kit):
    kit = Kit("kit" if is_kit else "finished panel", tuple(groups))
    counts = {"orders": Decimal(1), "cells": Decimal(36), "rails": Decimal(4), "columns": Decimal(4)}
    ours, theirs = work_of_shop(counts, kit), work_of_customer(counts, kit)
    assert ours | theirs == counts
    assert not set(ours) & set(theirs)


@given(
    st.decimals(Decimal("0.01"), 300, places=2),
    st.decimals(0, Decimal("0.3"), places=2),
    st.sampled_from(["each", "metre", "kilogram"]),
    st.sampled_from(["", "screw", "cell"]),
)
def test_a_box_holds_what_the_drawings_ask_and_more_where_things_are_lost(one, waste, sold_by, use):
    asked = one.to_integral_value() + 1 if use == "cell" else one
    need = Need("frame", "part", asked, sold_by, None, waste, use=use)
    assert amount_in_box(need) >= asked


@given(st.sets(st.sampled_from(BROUGHT)))
def test_a_need_is_never_lost_between_shop_and_customer(groups):
    needs = tuple(Need(group, group, Decimal(1), "each", None) for group in BROUGHT)
    ours, theirs = left(needs, Kit("kit", tuple(groups)))
    assert sorted(need.name for need in (*ours, *theirs)) == sorted(BROUGHT)


@pytest.mark.parametrize("name", examples.NAMES)
def test_everything_in_a_box_has_a_mass_and_no_panel_grows_heavier_by_what_is_sent_along(name):
    made = examples.made(name)
    boxed = in_a_box(made.design, quote(as_kit(made.design), SHELF).lines)
    without = {each.name for each in boxed if each.mass_kg is None}
    assert without <= {line.name for line in made.quote.lines if line.source.startswith("not on the shelf")}
    along = [line for line in made.quote.lines if line.sent_kg > 0]
    assert all(line.mass_kg == 0 for line in along)
    assert {"bypass"} <= {line.use for line in along} or made.design.electrical.bypass is None
