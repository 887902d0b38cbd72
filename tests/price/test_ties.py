"""Money ties out to the cent: lines to parts, parts to price, price to what is to pay; in any number."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.order.terms import Tax
from panewright.pack.packing import packing
from panewright.price.bill import Need, bill, total
from panewright.price.money import CENT, cents
from panewright.price.offers.breaks import breaks, in_number
from panewright.price.offers.offer import offer
from panewright.price.offers.quote import add_up, quote
from panewright.price.offers.tax import deposit, payable

MONEY = st.decimals(0, 100_000, places=2)
SHARE = st.decimals(0, 5, places=4)
NUMBERS = (1, 2, 3, 6, 40)


@pytest.fixture(scope="module")
def quotes(design, shelf):
    of = {panels: in_number(design, panels) for panels in NUMBERS}
    return {n: quote(each, shelf, None, packing(each, shelf)) for n, each in of.items()}


@pytest.mark.parametrize("panels", NUMBERS)
def test_lines_sum_to_parts_and_all_four_to_the_price(quotes, panels):
    made = quotes[panels]
    assert sum(line.cost for line in made.lines) == made.parts
    assert sum(work.minutes for work in made.work) / 60 == pytest.approx(made.hours, abs=Decimal("0.05"))
    whole = made.parts + made.labour + made.overhead + made.margin
    assert made.price_each == cents(whole / panels)
    assert made.price_order == made.price_each * panels
    assert abs(made.price_order - whole) <= CENT / 2 * panels
    told = next(listing for listing in made.listings if listing.name == "Parts")
    cost = [column.name for column in told.columns].index("Cost")
    assert sum(row[cost] for row in told.rows) == made.parts


@pytest.mark.parametrize("panels", NUMBERS)
def test_every_sum_is_of_whole_cents(quotes, panels):
    made = quotes[panels]
    sums = (made.parts, made.labour, made.overhead, made.margin, made.price_each, made.price_order)
    assert all(each == cents(each) for each in (*sums, *(line.cost for line in made.lines)))


def test_more_panels_cost_more_together_and_less_each(quotes, design, shelf):
    found = [quotes[panels] for panels in NUMBERS]
    assert all(few.price_order < many.price_order for few, many in pairwise(found))
    assert all(few.price_each >= many.price_each for few, many in pairwise(found))
    asked = breaks(design, shelf, quotes[3], packs=packing)
    assert [each.each for each in asked] == [quotes[each.panels].price_each for each in asked]


@given(MONEY, st.decimals(0, 5000, places=1), SHARE, SHARE, st.decimals(0, 500, places=2))
def test_any_shares_on_top_add_up_and_never_take_away(design, parts, spent, overhead, margin, rate):
    money = replace(design.order.money, overhead=overhead, margin=margin, labour_per_hour=rate)
    made = add_up(parts, spent, replace(design, order=replace(design.order, money=money)))
    assert made.price == made.parts + made.labour + made.overhead + made.margin
    assert made.price >= parts
    assert all(each == cents(each) for each in (made.labour, made.overhead, made.margin))


AMOUNTS = st.builds(
    Need,
    st.just("frame"),
    st.just("part"),
    st.decimals(Decimal("0.01"), 500, places=2),
    st.sampled_from(["each", "metre", "kilogram", "litre", "bar"]),
    st.none() | st.decimals(0, 1000, places=2),
    st.decimals(0, Decimal("0.3"), places=3),
)


@given(st.lists(AMOUNTS, max_size=6), st.integers(1, 40), st.integers(1, 6))
def test_so_many_times_as_many_never_cost_more_for_one(needs, panels, times):
    few, many = (total(bill(tuple(needs), n)) for n in (panels, panels * times))
    assert many <= times * few + CENT * len(needs) * times


@given(
    MONEY,
    st.integers(1, 1000),
    st.none() | MONEY,
    st.decimals(0, Decimal("0.6"), places=4),
    st.booleans(),
    st.decimals(0, 1, places=3),
)
def test_what_is_to_pay_ties_out_to_the_cent(each, panels, sent, rate, included, share):
    due = payable(each, panels, sent, Tax("VAT", rate, included))
    assert due.net + due.tax == due.total
    rows = due.goods + (due.carriage or 0) + (0 if included else due.tax)
    assert rows == due.total
    assert all(found == cents(found) for found in (due.each, due.net, due.tax, due.total))
    parted = deposit(due.total, share)
    assert parted is None or parted.now + parted.later == due.total


def test_a_kit_ties_out_too(design, shelf):
    kit = replace(design, order=replace(design.order, kit=replace(design.order.kit, sold_as="kit")))
    made = quote(kit, shelf)
    offered = offer(kit, made)
    assert sum(line.cost for line in made.lines) == made.parts
    assert offered.to_pay.goods == made.price_order
