"""Each number of panels is priced as an order of its own; more never cost less together."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.order.terms import Kit, MarketPrice
from panewright.price.bill import Need, bill, total
from panewright.price.breakage import cells_to_buy
from panewright.price.hours import hours
from panewright.price.money import cents
from panewright.price.offers.breaks import breaks, in_number
from panewright.price.offers.market import OPEN, compare, sentence
from panewright.price.offers.market_questions import cold_voc_v, questions
from panewright.price.offers.offer import as_told, beside_market, offer
from panewright.price.offers.quote import quote


@pytest.fixture(scope="module")
def found(design, shelf):
    return breaks(design, shelf, quote(design, shelf))


def test_the_order_and_its_own_number_are_priced(found):
    assert [each.panels for each in found] == [1, 2, 3, 6]


def test_more_panels_never_cost_less_together(found):
    totals = [each.order for each in found]
    assert totals == sorted(totals)


def test_no_panel_of_many_is_dearer_than_one_alone(found):
    assert all(each.each <= found[0].each for each in found)


def test_each_number_is_the_quote_of_an_order_of_its_own(found, design, shelf):
    for each in found:
        alone = quote(in_number(design, each.panels), shelf)
        assert (each.each, each.order, each.cells) == (
            alone.price_each,
            alone.price_order,
            alone.cells_bought,
        )
        assert each.cells == cells_to_buy(36 * each.panels)
        assert each.bars == len(alone.cuts.bars)


AMOUNTS = st.decimals(Decimal("0.01"), 500, places=2)
NEEDS = st.builds(
    Need,
    st.just("ribbon"),
    st.just("part"),
    AMOUNTS,
    st.sampled_from(["each", "metre", "kilogram", "square metre"]),
    st.decimals(0, 1000, places=2),
    st.decimals(0, Decimal("0.3"), places=3),
)


@given(st.lists(NEEDS, max_size=6), st.integers(1, 60), st.integers(1, 60))
def test_two_orders_together_never_cost_more_than_apart_but_for_cents(needs, few, many):
    """What is bought once for all is rounded up once; each line's own rounding is half a cent."""
    one, two, both = (total(bill(tuple(needs), n)) for n in (few, many, few + many))
    assert both <= one + two + Decimal("0.01") * len(needs)
    assert both >= max(one, two)


@given(st.integers(1, 400), st.integers(1, 400))
def test_more_cells_never_need_fewer_spares(few, more):
    assert cells_to_buy(few + more) >= cells_to_buy(few) + more


def test_an_offer_stands_for_its_days_and_knows_no_clock(design, shelf, found):
    made = quote(design, shelf)
    dated, blank = offer(design, made, found, day=date(2026, 2, 27)), offer(design, made)
    assert dated.until == date(2026, 3, 29)
    assert (blank.day, blank.until, len(blank.breaks)) == (None, None, 1)
    assert dated.to_pay.total == cents((made.price_order + 60) * Decimal("1.2"))
    assert dated.deposit.now + dated.deposit.later == dated.to_pay.total
    assert as_told(found[0], dated.terms).each == found[0].each


def test_without_a_market_price_the_page_says_so():
    assert compare(Decimal(100), 100.0, None) is None
    assert sentence(None, "EUR") == OPEN


@pytest.mark.parametrize(("price", "cheaper"), [("0.25", True), ("1.50", False), ("1.49", True)])
def test_the_maker_is_told_which_is_cheaper(price, cheaper):
    market = MarketPrice(Decimal(price), "a list", date(2026, 1, 2))
    there = compare(Decimal("150.00"), 100.0, market)
    assert there.cheaper_bought is cheaper
    said = sentence(there, "EUR")
    assert ("Buying ready-made is cheaper" in said) is cheaper
    assert "a list, 2026-01-02" in said


def as_kit(design, *brings):
    return replace(design, order=replace(design.order, kit=Kit("kit", brings)))


def test_a_kit_is_set_beside_no_market_for_glass_cells_and_work_are_not_in_its_price(design, shelf):
    kit = as_kit(design, "cells", "glass")
    made = quote(kit, shelf)
    found = offer(kit, made)
    assert found.market is None
    told = beside_market(found, "EUR")
    each = (hours(made.customer_work) / made.panels).quantize(Decimal("0.1"))
    assert f"neither the {each} hours that the customer builds nor what the customer brings" in told
    assert "(cells, glass)" in told
    assert "watt" not in told


def test_a_kit_with_all_parts_in_it_still_leaves_the_work_out(design, shelf):
    kit = as_kit(design)
    told = beside_market(offer(kit, quote(kit, shelf)), "EUR")
    assert "hours that the customer builds" in told
    assert "brings" not in told
    whole = quote(design, shelf)
    assert beside_market(offer(design, whole), "EUR") == sentence(offer(design, whole).market, "EUR")


def test_questions_follow_the_volts_and_the_solder(design, shelf):
    made = quote(design, shelf)
    asked = {each.topic: each for each in questions(design, made)}
    assert list(asked) == ["voltage", "lead", "waste", "building and fire", "type test", "insurance"]
    assert "below 50 V" in asked["voltage"].answer
    assert f"come to {design.label.system_v:.0f}\u2009V" in asked["voltage"].answer
    assert "holds lead" in asked["lead"].answer
    plain = replace(made, lines=tuple(line for line in made.lines if line.use != "solder"))
    assert "No part names lead" in {each.topic: each for each in questions(design, plain)}["lead"].answer
    assert cold_voc_v(design) > design.label.voc_v
    assert all("recalled" in each.source or "no text" in each.source for each in asked.values())
