"""Who asked, how many, how to write things down, and what an hour costs."""

from __future__ import annotations

import re
from typing import Literal, cast

from panewright.order.answers import Answers
from panewright.order.order import Job, Money
from panewright.shelf.shelf import Shelf

_MONEY_SUFFIX = re.compile(r"[A-Z]{3}")


def read_job(answers: Answers, shelf: Shelf) -> Job:
    """The [order] section."""
    _currency(answers, shelf)
    if not answers.word("order.serial")[-1:].isdigit():
        cure = 'End it with digits, such as serial = "0042".'
        answers.wrong(
            "order.serial", "Serials are counted on from the first, and this one ends in no digit.", cure
        )
    units = answers.word("order.units")
    if units == "us":
        answers.assume("order.paper", "Letter", "the common sheet where inches are used")
    answers.assume("order.paper", "A4", "the common sheet where millimetres are used")
    return Job(
        name=answers.word("order.name"),
        number=answers.word("order.number"),
        customer=answers.word("order.customer"),
        maker=answers.word("order.maker"),
        panels=answers.count("order.panels"),
        first_serial=answers.word("order.serial"),
        currency=answers.word("order.currency"),
        units=cast(Literal["metric", "us"], units),
        paper=cast(Literal["A4", "Letter"], answers.word("order.paper")),
    )


def _currency(answers: Answers, shelf: Shelf) -> None:
    answers.assume("order.currency", shelf.currency, "the shelf's prices are in it")
    stated = answers.sound_word("order.currency")
    if stated is not None and stated != shelf.currency:
        cure = f"Leave currency out, or bring a shelf with prices in {stated or 'it'}."
        answers.wrong("order.currency", f"The shelf's prices are in {shelf.currency}.", cure)


def read_money(answers: Answers, shelf: Shelf) -> Money:
    """The [money] section; an hour's price must be in the shelf's currency."""
    found = _MONEY_SUFFIX.search(str(answers.raw.get("money.labour", "")))
    if found and answers.sound("money.labour") is not None and found.group() != shelf.currency:
        cure = f'Write the hour in {shelf.currency}, such as labour = "40 {shelf.currency}/h".'
        answers.wrong("money.labour", f"The shelf's prices are in {shelf.currency}.", cure)
    answers.assume("money.labour", f"40 {shelf.currency}/h", "an invented rate; put your own")
    return Money(
        labour_per_hour=answers.exact("money.labour"),
        overhead=answers.exact("money.overhead"),
        margin=answers.exact("money.margin"),
    )
