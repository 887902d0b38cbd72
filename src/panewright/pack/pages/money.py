"""The maker's own page: breaks, what is to pay, the market beside it, and what a market asks."""

from __future__ import annotations

from panewright.drawing.drawing import Align
from panewright.drawing.sheet import Block, Heading, Page, Table, Words
from panewright.pack.bench import Bench, listed
from panewright.pack.pages.quote import carriage_words, tax_words
from panewright.pack.pages.table import widths
from panewright.price.money import amount
from panewright.price.offers.carriage import UNKNOWN
from panewright.price.offers.offer import Offer, as_told, beside_market
from panewright.price.offers.quote import Quote

ASKED = (
    "Questions, not answers in law: texts and limits are recalled and may have changed. Local law, the "
    "insurer "
    "and a licensed person decide."
)


def market_page(bench: Bench, offer: Offer) -> Page:
    """What the offer says, seen from the maker's side."""
    currency = bench.quote.currency
    blocks: list[Block] = [
        Words(beside_market(offer, currency), "lead" if offer.market else "normal"),
        Heading("Price by number"),
        _breaks(bench, offer),
        Words(
            f"{tax_words(offer.terms)} Every number is priced as an order of its own; a price of one may "
            "rise where one more panel begins a new bar or batch.",
            "small",
        ),
        Heading("To pay"),
        Words(_to_pay(bench, offer)),
        Heading("What a market may ask"),
        Words(ASKED),
        Table(
            ("", "Asked", "What this design says", "Text"),
            tuple((each.topic, each.asked, each.answer, each.source) for each in offer.questions),
            (0.11, 0.27, 0.42, 0.2),
            ("left",) * 4,
        ),
    ]
    return Page("Market and terms", tuple(blocks))


def told(quote: Quote, offer: Offer) -> tuple[str, ...]:
    """The offer in a few lines for a screen."""
    currency = quote.currency
    lines = [
        f"{found.panels:5d} × {amount(found.each, currency)} = {amount(found.order, currency)}"
        for found in (as_told(each, offer.terms) for each in offer.breaks)
    ]
    due = f"To pay for {quote.panels}: {amount(offer.to_pay.total, currency)}. {tax_words(offer.terms)}"
    return (*lines, due, *_lacking(offer), *_carriage(offer, currency), beside_market(offer, currency))


def _lacking(offer: Offer) -> tuple[str, ...]:
    """Parts without a price, by their names; nothing where all have one."""
    return (f"Without a price, and so in no sum: {listed(offer.without)}.",) if offer.without else ()


def _carriage(offer: Offer, currency: str) -> tuple[str, ...]:
    """Carriage as a line of its own, then what travels how."""
    if offer.carriage is None:
        return ()
    due = offer.to_pay.carriage
    charge = UNKNOWN if due is None else f"{amount(due, currency)} of that"
    return (f"{offer.carriage.words.capitalize()}: {charge}.", *carriage_words(offer))


def _breaks(bench: Bench, offer: Offer) -> Table:
    currency = bench.quote.currency
    kit = bench.quote.goods == "kit"
    columns = (
        f"{bench.quote.goods.capitalize()}s",
        f"One, {currency}",
        f"All, {currency}",
        *(() if kit else (f"A watt, {currency}",)),
        "Hours of one",
        "Cells",
        "Bars",
    )
    rows = tuple(
        (
            str(found.panels),
            amount(found.each, ""),
            amount(found.order, ""),
            *(() if kit else (amount(found.per_watt, ""),)),
            f"{found.hours_each}",
            str(found.cells),
            "–" if found.bars is None else str(found.bars),
        )
        for found in (as_told(each, offer.terms) for each in offer.breaks)
    )
    align: tuple[Align, ...] = ("right",) * 7
    return Table(columns, rows, widths(columns, rows), align[: len(columns)])


def _to_pay(bench: Bench, offer: Offer) -> str:
    currency, due = bench.quote.currency, offer.to_pay
    said = [f"{tax_words(offer.terms)} To pay: {amount(due.total, currency)}"]
    if offer.terms.tax is not None:
        said.append(f", of which {amount(due.tax, currency)} {offer.terms.tax.name}")
    said.append(". ")
    said.append("Carriage is in it." if due.carriage is not None else "Carriage is not in it.")
    said += [f" {words}" for words in carriage_words(offer)]
    if offer.deposit:
        said.append(f" {amount(offer.deposit.now, currency)} when ordering.")
    said += [f" {words}" for words in _lacking(offer)]
    return "".join(said)
