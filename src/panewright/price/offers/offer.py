"""An offer: the quote with its breaks, tax, carriage, deposit and days, and what a market asks.

No clock: the day of an offer is an argument, and an offer without one leaves the day to be written by hand.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal

from panewright.order.terms import Kit, Terms
from panewright.panel.design import Design
from panewright.price.hours import hours
from panewright.price.money import cents
from panewright.price.offers.breaks import Break, of_quote
from panewright.price.offers.carriage import Carriage, carriage_of
from panewright.price.offers.market import Comparison, compare, of_a_kit, sentence
from panewright.price.offers.market_questions import Question, questions
from panewright.price.offers.quote import Quote
from panewright.price.offers.tax import Deposit, Payable, deposit, payable


@dataclass(frozen=True, slots=True)
class Offer:
    """All that an offer says of money."""

    terms: Terms
    day: date | None
    until: date | None  #: the last day on which it stands
    breaks: tuple[Break, ...]
    carriage: Carriage | None
    to_pay: Payable  #: for the number that is ordered
    deposit: Deposit | None
    market: Comparison | None  #: none of a kit
    questions: tuple[Question, ...]
    as_kit: str = ""  #: why no market stands beside it; empty for finished panels
    without: tuple[str, ...] = ()  #: parts that have no price yet and are in no sum of it


def offer(
    design: Design,
    made: Quote,
    broken: tuple[Break, ...] = (),
    *,
    day: date | None = None,
    reckoned: Carriage | None = None,
) -> Offer:
    """An offer of a quote; `broken` are its price breaks, without them its own number alone."""
    terms, kit = design.order.money.terms, design.order.kit
    sent = carriage_of(terms, reckoned)
    due = payable(made.price_each, made.panels, sent.cost if sent else None, terms.tax)
    return Offer(
        terms=terms,
        day=day,
        until=day + timedelta(days=terms.valid_days) if day else None,
        breaks=broken or (of_quote(made),),
        carriage=sent,
        to_pay=due,
        deposit=deposit(due.total, terms.deposit),
        market=None if kit.is_kit else compare(made.price_each, design.label.pmp_w, terms.market),
        questions=questions(design, made),
        as_kit=_as_kit(made, kit) if kit.is_kit else "",
        without=made.without_price,
    )


def _as_kit(made: Quote, kit: Kit) -> str:
    return of_a_kit((hours(made.customer_work) / made.panels).quantize(Decimal("0.1")), kit.brings)


def beside_market(found: Offer, currency: str) -> str:
    """What the maker should know of the market before building; of a kit why nothing is told."""
    return found.as_kit or sentence(found.market, currency, found.without)


def as_told(found: Break, terms: Terms) -> Break:
    """A price break as the offer tells prices: with or without tax."""
    each = payable(found.each, 1, None, terms.tax).each
    watt = cents(each * found.per_watt / found.each) if found.each else found.per_watt
    return replace(found, each=each, order=each * found.panels, per_watt=watt)
