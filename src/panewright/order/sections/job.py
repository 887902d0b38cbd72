"""Who asked, how many, and how to write things down."""

from __future__ import annotations

from typing import Literal, cast

from panewright.order.answers import Answers
from panewright.order.order import Job
from panewright.shelf.shelf import Shelf


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
        cure = (
            f"Leave currency out, or bring own tables with prices in {stated or 'it'}, see panewright tables."
        )
        answers.wrong("order.currency", f"The shelf's prices are in {shelf.currency}.", cure)
