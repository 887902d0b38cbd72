"""What work and money cost, on which terms it is sold, kits, and hands."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal
from typing import Literal, TypeVar, cast

from panewright.order.answers import Answers
from panewright.order.order import Money
from panewright.order.terms import (
    BREAKS,
    VALID_DAYS,
    Hands,
    Kit,
    MarketPrice,
    Tax,
    Terms,
    Unfit,
    brought,
    day_of,
    quantities,
)
from panewright.shelf.shelf import Shelf

_CURRENCY = re.compile(r"[A-Z]{3}")
_SUMS = {"labour": "40 {}/h", "carriage": "60 {}", "market_price": "0.25 {}"}
_MARKET = ("money.market_price", "money.market_source", "money.market_date")
Found = TypeVar("Found")


def read_money(answers: Answers, shelf: Shelf) -> Money:
    """The [money] section; every sum must be in the shelf's currency."""
    for name, example in _SUMS.items():
        _in_currency(answers, name, example, shelf.currency)
    answers.assume("money.labour", f"40 {shelf.currency}/h", "an invented rate; put your own")
    return Money(
        labour_per_hour=answers.exact("money.labour"),
        overhead=answers.exact("money.overhead"),
        margin=answers.exact("money.margin"),
        terms=_terms(answers),
    )


def _in_currency(answers: Answers, name: str, example: str, currency: str) -> None:
    dotted = f"money.{name}"
    found = _CURRENCY.search(str(answers.raw.get(dotted, "")))
    if found and answers.sound(dotted) is not None and found.group() != currency:
        what = "the hour" if name == "labour" else "it"
        cure = f'Write {what} in {currency}, such as {name} = "{example.format(currency)}".'
        answers.wrong(dotted, f"The shelf's prices are in {currency}.", cure)


def _terms(answers: Answers) -> Terms:
    return Terms(
        breaks=_listed(answers, "money.breaks", quantities) or BREAKS,
        tax=_tax(answers),
        valid_days=answers.sound_count("money.valid_days") or VALID_DAYS,
        deposit=_sum(answers, "money.deposit") or Decimal(0),
        payment=answers.sound_word("money.payment") or "",
        conditions=answers.sound_word("money.conditions") or "",
        carriage=_sum(answers, "money.carriage"),
        market=_market(answers),
    )


def _sum(answers: Answers, dotted: str) -> Decimal | None:
    value = answers.sound(dotted)
    return value if isinstance(value, Decimal) else None


def _tax(answers: Answers) -> Tax | None:
    """A tax needs a rate and its name; a name or a way of telling prices needs a rate."""
    rate, name = _sum(answers, "money.tax"), answers.sound_word("money.tax_name")
    if answers.faulty("money.tax"):
        return None
    if answers.given("money.tax"):
        answers.needs("money.tax_name", "a tax is named in an offer.")
    elif answers.given("money.tax_name") or answers.given("money.prices"):
        answers.needs("money.tax", "a tax has a rate.")
    if rate is None or not name:
        return None
    return Tax(name, rate, answers.sound_word("money.prices") == "with tax")


def _market(answers: Answers) -> MarketPrice | None:
    """A price read somewhere: all three or none."""
    if not any(answers.given(dotted) for dotted in _MARKET):
        return None
    for dotted in _MARKET:
        answers.needs(dotted, "a market price is told with its source and day.")
    price, source = _sum(answers, "money.market_price"), answers.sound_word("money.market_source")
    if price is not None and price <= 0:
        answers.wrong(
            _MARKET[0], "Nobody sells a watt for nothing.", "Write the price that you read, or none."
        )
    day = _listed(answers, "money.market_date", day_of)
    return MarketPrice(price, source, day) if price is not None and source and day else None


def _listed(answers: Answers, dotted: str, read: Callable[[str], Found | Unfit]) -> Found | None:
    """Words read as a list or a day; a mistake is told at the key."""
    words = answers.sound_word(dotted)
    if words is None:
        return None
    found = read(words)
    if isinstance(found, Unfit):
        answers.wrong(dotted, found.reason, found.cure)
        return None
    return found


def read_kit(answers: Answers) -> Kit:
    """The [kit] section."""
    sold_as = answers.sound_word("kit.sold_as") or "finished panel"
    brings = _listed(answers, "kit.customer_brings", brought) or ()
    return Kit(cast(Literal["finished panel", "kit"], sold_as), brings)


def read_hands(answers: Answers) -> Hands:
    """The [hands] section; whatever is left out is as a small shop has it."""
    usual = Hands()
    return Hands(
        people=answers.sound_count("hands.people") or usual.people,
        day_h=float(answers.sound_count("hands.day_hours") or usual.day_h),
        days_a_week=answers.sound_count("hands.days_a_week") or usual.days_a_week,
        cure_places=answers.sound_count("hands.cure_places") or usual.cure_places,
        forms=answers.sound_count("hands.forms") or usual.forms,
        presses=answers.sound_count("hands.presses") or usual.presses,
    )
