"""The quote to send: what it must say, and that no word of a customer becomes anything but words."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pdfplumber
import pytest

from panewright.drawing.sheet import Table
from panewright.order.terms import MarketPrice, Tax
from panewright.pack.bench import Bench
from panewright.pack.pack import quote_leaf
from panewright.pack.pages.money import market_page
from panewright.pack.pages.money import told as screen
from panewright.pack.pages.quote import breaks_table, not_included
from panewright.paper.leaf import render
from panewright.price.money import amount
from panewright.price.offers.offer import beside_market, offer

HOSTILE = '=1+1 #image("/etc/passwd") $x$ *b* <script> @label \\ "quoted" \u202e'


def changed(made, **terms):
    money = made.design.order.money
    new = replace(money, terms=replace(money.terms, **terms))
    return replace(made.design, order=replace(made.design.order, money=new))


def words(design, quote, day=None):
    content = render(quote_leaf(design, quote, offer(design, quote, day=day)))
    with pdfplumber.open(io.BytesIO(content)) as pdf:
        return " ".join(page.extract_text() for page in pdf.pages).replace("\xa0", " ")


def test_a_quote_says_whom_what_how_much_and_how_long(made):
    job = made.design.order.job
    said = words(made.design, made.quote, date(2026, 11, 26))
    assert "2026-11-26" in said
    assert "2026-12-26" in said
    assert job.customer in said
    assert job.maker in said
    assert "To pay" in said
    assert "No tax is reckoned" in said
    assert "carriage" in said


def test_without_a_day_there_is_room_to_write_it(made):
    assert "day of this quote" in words(made.design, made.quote)


@pytest.mark.parametrize("included", [True, False])
def test_tax_is_told_by_its_name_and_the_sums_stand_there(made, included):
    design = changed(made, tax=Tax("GST", Decimal("0.1"), included), deposit=Decimal("0.25"))
    offered = offer(design, made.quote)
    said = words(design, made.quote)
    assert "GST 10 %" in said
    for figure in (offered.to_pay.total, offered.to_pay.tax, offered.deposit.now):
        assert f"{figure:,.2f}".replace(",", " ") in said


@pytest.mark.parametrize("included", [True, False])
def test_screen_book_and_quote_tell_the_same_price_with_tax_or_without(made, included):
    design = changed(made, tax=Tax("GST", Decimal("0.1"), included), carriage=None)
    offered, bench = offer(design, made.quote), Bench(design, made.quote)
    each = offered.to_pay.each
    assert (each == made.quote.price_each) == (not included)
    rows = [breaks_table(bench, offered).rows[0]]
    rows += [block.rows[0] for block in market_page(bench, offered).blocks if isinstance(block, Table)][:1]
    assert all(amount(each, "") in row for row in rows)
    assert amount(each, made.quote.currency) in screen(made.quote, offered)[0]


def test_hostile_words_stay_words(made):
    design = changed(made, conditions=HOSTILE[:-1])
    job = replace(design.order.job, customer=HOSTILE)
    said = words(replace(design, order=replace(design.order, job=job)), made.quote)
    assert said.count('#image("/etc/passwd") $x$ *b* <script> @label') == 2
    assert "\u202e" not in said


def test_an_unproven_design_is_stamped(made):
    stamped = quote_leaf(made.design, made.quote, offer(made.design, made.quote)).book.stamp
    assert stamped == ("" if made.design.proven else "NOT PROVEN")


def test_carriage_in_the_price_is_not_among_what_is_left_out(made):
    bench = Bench(changed(made, carriage=Decimal(60)), made.quote)
    offered = offer(bench.design, bench.quote)
    assert not any("carriage" in words for words in not_included(bench, offered))
    assert offered.to_pay.total == made.quote.price_order + 60


def test_the_same_offer_gives_the_same_bytes(made):
    one, two = (render(quote_leaf(made.design, made.quote, offer(made.design, made.quote))) for _ in range(2))
    assert one == two


def test_over_a_thousand_the_sum_is_the_largest_figure_of_money_and_the_price_of_one_stands_in_its_table(
    made,
):
    dear = replace(made.quote, panels=3, price_each=Decimal("1234.50"), price_order=Decimal("3703.50"))
    content = render(quote_leaf(made.design, dear, offer(made.design, dear)))
    assert "1 234.50" in words(made.design, dear)
    with pdfplumber.open(io.BytesIO(content)) as pdf:
        large = [char["text"] for page in pdf.pages for char in page.chars if char["size"] >= 20]
    letters = "".join(large).replace("\xa0", " ")
    assert "3 703.50" in letters
    assert "1 234.50" not in letters
    assert dear.currency not in letters  # the currency is smaller than its figure


def lacking(quote, *groups):
    """The same quote where the shelf has no price of these."""
    lines = (replace(line, price=None, cost=None) if line.group in groups else line for line in quote.lines)
    return replace(quote, lines=tuple(lines))


def test_parts_without_a_price_are_named_wherever_a_sum_stands(made):
    design, quote = changed(made, deposit=Decimal("0.25")), lacking(made.quote, "glass", "cells")
    names = [line.name for line in quote.lines if line.price is None]
    found = offer(design, quote)
    said, told = words(design, quote), " ".join(screen(quote, found))
    squeezed = said.replace("\n", " ")
    assert f"To pay, but for {len(names)} parts without a price" in squeezed
    assert "a share of what is known" in squeezed
    assert all(name in told for name in names)
    assert all(
        f"{name}: no price is known yet" in not_included(Bench(design, quote), found) for name in names
    )


@pytest.mark.parametrize(
    ("per_watt", "words"), [("0.05", "instead of at least"), ("90", "is not known before")]
)
def test_a_price_without_all_parts_is_not_set_beside_the_market_as_if_it_were_whole(made, per_watt, words):
    market = MarketPrice(Decimal(per_watt), "a list", date(2026, 1, 2))
    design, quote = changed(made, market=market), lacking(made.quote, "cells")
    told = beside_market(offer(design, quote), "EUR")
    cell = next(line.name for line in quote.lines if line.price is None)
    assert f"without the price of {cell}" in told
    assert words in told
    assert words not in beside_market(offer(design, made.quote), "EUR")
