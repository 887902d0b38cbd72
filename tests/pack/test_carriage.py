"""Carriage in the offer: reckoned from the crate, stated by the order, or honestly to be asked."""

from __future__ import annotations

import io
from dataclasses import replace
from decimal import Decimal

import pdfplumber
import pytest

from panewright.crate.ask import ask_of
from panewright.crate.crated import crated
from panewright.order.terms import Tax
from panewright.pack.bench import Bench
from panewright.pack.carriage import carriage
from panewright.pack.pack import quote_leaf
from panewright.pack.pages.money import told
from panewright.pack.pages.quote import not_included
from panewright.paper.leaf import render
from panewright.price.offers.offer import offer


def ordered(design, terms=None, **wishes):
    """The same design, its terms or its wishes for the crate changed."""
    order = design.order
    money = replace(order.money, terms=replace(order.money.terms, **(terms or {})))
    return replace(design, order=replace(order, money=money, crate=replace(order.crate, **wishes)))


def asked(design):
    return carriage(design, crated(ask_of(design)))


def uncharged(design):
    """Carriers that take the same, and name no charge."""
    return tuple(replace(each, bands=()) for each in design.order.crate.carriers)


def said(design, quote):
    content = render(quote_leaf(design, quote, offer(design, quote, reckoned=asked(design))))
    with pdfplumber.open(io.BytesIO(content)) as pdf:
        return " ".join(page.extract_text() for page in pdf.pages).replace("\xa0", " ").replace("\n", " ")


def test_the_charge_of_the_tariff_is_a_line_and_in_the_sum(made):
    found = crated(ask_of(made.design))
    offered = offer(made.design, made.quote, reckoned=asked(made.design))
    assert offered.carriage.cost == found.price > 0
    assert offered.to_pay.total == made.quote.price_order + found.price
    assert not any("carriage" in words for words in not_included_of(made.design, made.quote, offered))


def not_included_of(design, quote, offered):
    return not_included(Bench(design, quote), offered)


def test_the_quote_tells_crates_mass_volume_and_why(made):
    words = said(made.design, made.quote)
    assert "by volume" in words
    assert "to a kilogram" in words
    assert ("crate of" in words) or ("crates of" in words)
    assert asked(made.design).because.split(":")[0] in words


def test_a_tariff_without_a_charge_is_asked_for_and_in_no_sum(made):
    design = ordered(made.design, carriers=uncharged(made.design))
    offered = offer(design, made.quote, reckoned=asked(design))
    assert offered.carriage.cost is None
    assert offered.to_pay.total == made.quote.price_order
    words = said(design, made.quote)
    assert "to be asked" in words
    assert "not in what is to pay" in words
    assert any("to be asked" in line for line in told(made.quote, offered))
    assert not_included_of(design, made.quote, offered)[0].startswith("carriage")


def test_a_tariff_in_another_currency_is_never_added(made):
    foreign = tuple(replace(each, currency="SEK") for each in made.design.order.crate.carriers)
    found = asked(ordered(made.design, carriers=foreign))
    assert found.cost is None
    assert "SEK" in found.because


def test_where_no_carrier_takes_it_the_line_says_so(made):
    found = asked(ordered(made.design, carriers=()))
    assert found.cost is None
    assert "no carrier" in found.because


def test_the_orders_own_figure_goes_before_the_tariff(made):
    design = ordered(made.design, {"carriage": Decimal(7)})
    offered = offer(design, made.quote, reckoned=asked(design))
    assert offered.carriage.cost == Decimal(7)
    assert offered.carriage.goods == asked(made.design).goods
    assert offered.to_pay.total == made.quote.price_order + 7


@pytest.mark.parametrize("included", [True, False])
def test_carriage_is_told_with_tax_as_the_panels_are(made, included):
    design = ordered(made.design, {"tax": Tax("VAT", Decimal("0.19"), included)})
    due = offer(design, made.quote, reckoned=asked(design)).to_pay
    assert due.net + due.tax == due.total
    if included:
        assert due.each * due.panels + due.carriage == due.total
