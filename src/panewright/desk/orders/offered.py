"""The offer of an order for a page: prices by number, tax, deposit, days; and a kit's packing list."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from panewright.desk import Made
    from panewright.desk.shop.who import Who
    from panewright.ledger.open import Ledger
    from panewright.ledger.orders.promises import QuoteSent
    from panewright.pack.bench import Bench
    from panewright.price.kit import Boxed
    from panewright.price.offers.offer import Offer


@dataclass(frozen=True, slots=True)
class BreakShown:
    """One number of panels and its price, as the offer tells prices."""

    panels: int
    each: str
    all: str
    hours: str
    mine: bool


@dataclass(frozen=True, slots=True)
class Asked:
    """What a market may ask."""

    topic: str
    asked: str
    answer: str
    source: str


@dataclass(frozen=True, slots=True)
class OfferShown:
    """An offer in words, and its total for the records."""

    revision: str
    proven: bool
    sentence: str
    to_pay: str
    breaks: tuple[BreakShown, ...]
    sums: tuple[tuple[str, str], ...]
    carriage: tuple[str, ...]  #: what travels how, and why
    terms: str
    days: str
    market: str
    dearer: bool  #: than ready-made
    left_out: tuple[str, ...]
    asks: tuple[Asked, ...]
    total: str  #: a plain number
    currency: str
    until: date


@dataclass(frozen=True, slots=True)
class Packed:
    """One line of a packing list."""

    key: str  #: under which it is ticked
    what: str
    size: str
    amount: str
    spare: str
    mass: str


@dataclass(frozen=True, slots=True)
class KitShown:
    """What goes into one box, and what the customer brings."""

    is_kit: bool
    boxes: int
    lines: tuple[Packed, ...]
    papers: tuple[Packed, ...]
    mass: str
    brings: tuple[tuple[str, str, str], ...]


def offered(made: Made, day: date) -> OfferShown:
    """An offer of that day."""
    from panewright import desk
    from panewright.pack.bench import Bench, count
    from panewright.pack.pages.quote import carriage_words, not_included, tax_words
    from panewright.pack.verdict import sentence
    from panewright.price.money import amount
    from panewright.price.offers.offer import as_told, beside_market

    found, quote, currency = desk.offer(made, day), made.quote, made.quote.currency
    breaks = tuple(
        BreakShown(
            each.panels,
            amount(each.each, currency),
            amount(each.order, currency),
            f"{each.hours_each}",
            each.panels == quote.panels,
        )
        for each in (as_told(one, found.terms) for one in found.breaks)
    )
    until = found.until or day
    stands = count(found.terms.valid_days, "day")
    return OfferShown(
        revision=made.design.revision,
        proven=made.design.proven,
        sentence=sentence(made.design.checks),
        to_pay=amount(found.to_pay.total, currency),
        breaks=breaks,
        sums=_sums(made, found),
        carriage=carriage_words(found),
        terms=tax_words(found.terms),
        days=f"Of {day.isoformat()}; it stands for {stands}, to the end of {until.isoformat()}.",
        market=beside_market(found, currency),
        dearer=bool(found.market and found.market.cheaper_bought),
        left_out=not_included(Bench(made.design, quote), found),
        asks=tuple(Asked(each.topic, each.asked, each.answer, each.source) for each in found.questions),
        total=f"{found.to_pay.total:f}",
        currency=currency,
        until=until,
    )


def _sums(made: Made, found: Offer) -> tuple[tuple[str, str], ...]:
    """From panels to what is to pay."""
    from panewright.pack.bench import count
    from panewright.pack.pages.quote import but_for
    from panewright.price.money import amount
    from panewright.price.offers.carriage import UNKNOWN

    currency, due = made.quote.currency, found.to_pay
    rows = [
        (
            f"{count(due.panels, made.quote.goods)}, {amount(due.each, currency)} each",
            amount(due.goods, currency),
        )
    ]
    if found.carriage is not None:
        charge = UNKNOWN if due.carriage is None else amount(due.carriage, currency)
        rows.append((found.carriage.words.capitalize(), charge))
    if found.terms.tax is not None:
        inside = "Of that" if found.terms.tax.included else "And"
        rows.append((f"{inside} {found.terms.tax.name}", amount(due.tax, currency)))
    rows.append((f"To pay{but_for(found)}", amount(due.total, currency)))
    if found.deposit is not None:
        rows.append(("Of that when ordering", amount(found.deposit.now, currency)))
        rows.append(("Later", amount(found.deposit.later, currency)))
    return tuple(rows)


def quote_pdf(made: Made, day: date) -> bytes:
    """The quote of that day, to send."""
    from panewright import desk
    from panewright.pack.pack import quote_leaf
    from panewright.paper.leaf import render

    return render(quote_leaf(made.design, made.quote, desk.offer(made, day)))


def went_out(ledger: Ledger, number: str, seen: OfferShown, day: date, who: Who) -> None:
    """Keep that the quote of the order as it stands went to the customer."""
    from decimal import Decimal

    from panewright.ledger.orders.orders import find_order
    from panewright.ledger.orders.promises import QuoteSent, keep_quote

    stands = find_order(ledger, number)
    told = seen.revision, day, seen.until, Decimal(seen.total), seen.currency
    keep_quote(ledger, QuoteSent(number, stands.version, *told), by=who.by, at=who.at, tap=who.tap)


def sent_by_command(ledger: Ledger, made: Made, data: bytes, day: date, who: Who) -> QuoteSent:
    """Keep that the quote of an order's file went out, under the order of the records that says the same.

    An order that the records do not have is saved there first; one that says otherwise there is refused.
    """
    from panewright.order.source import decoded

    number, text = made.design.order.job.number, decoded(data, "the file")
    _same_order(ledger, number, text, who)
    went_out(ledger, number, offered(made, day), day, who)
    return sent(ledger, number)[-1]


def _same_order(ledger: Ledger, number: str, text: str, who: Who) -> None:
    from panewright.desk.shop.orders import NUMBER
    from panewright.errors import Problem, RecordError
    from panewright.ledger.orders.orders import find_order, numbers, save_order

    if not NUMBER.fullmatch(number):
        cure = "Write letters, digits, dots and dashes, 30 at most."
        raise RecordError([Problem("The shop takes no such number.", cure, key="order.number", value=number)])
    if number not in numbers(ledger):
        save_order(ledger, number, text, seen=0, by=who.by, at=who.at)
    elif find_order(ledger, number).text.splitlines() != text.splitlines():
        reason = "The records have another order of this number, or another text of it."
        cure = "Take the order's text from the shop, or give this one another number."
        raise RecordError([Problem(reason, cure, key="order.number", value=number)])


def sent(ledger: Ledger, number: str) -> tuple[QuoteSent, ...]:
    """The quotes of an order that went out."""
    from panewright.ledger.orders.promises import quotes_sent

    return quotes_sent(ledger, number)


def kit(made: Made) -> KitShown:
    """What goes into each box of this order, sold as a kit."""
    from panewright import desk
    from panewright.pack.bench import Bench
    from panewright.pack.pages.kit import boxed, paper_key, papers
    from panewright.pack.steps.takes import amount_said
    from panewright.price.kit import total_kg
    from panewright.units import show

    as_one = desk.as_kit(made)
    bench = Bench(as_one.design, as_one.quote)
    lines = boxed(bench)
    return KitShown(
        made.design.order.kit.is_kit,
        as_one.design.order.job.panels,
        tuple(_packed(bench, each) for each in lines),
        tuple(Packed(paper_key(name), name, "", "1", "", words) for name, words in papers(bench)),
        show(total_kg(lines), "kg", as_one.design.order.job.units),
        tuple((line.name, line.size, amount_said(bench, line)) for line in as_one.quote.brought),
    )


def box_pdf(made: Made, serial: str, number: int, packed: Mapping[str, str]) -> bytes:
    """The packing list of one box, with who put which line in."""
    from panewright import desk
    from panewright.pack.pack import box_leaf
    from panewright.pack.pages.kit import Box
    from panewright.paper.leaf import render

    as_one = desk.as_kit(made)
    return render(box_leaf(as_one.design, as_one.quote, Box(serial, number, packed)))


def _packed(bench: Bench, each: Boxed) -> Packed:
    from panewright.pack.pages.kit import line_key, row

    name, size, amount, spare, mass = row(bench, each)
    return Packed(line_key(each), name, size, amount, spare, mass)
