"""The quote to send: what is offered, its figures, what it costs in which number, and on which terms."""

from __future__ import annotations

from functools import partial

from panewright.drawing.drawing import Align
from panewright.drawing.paper_size import Size
from panewright.drawing.sheet import Block, Book, Caution, Fields, Heading, Numbers, Page, Table, Words
from panewright.order.terms import Terms
from panewright.pack.bench import Bench, count, listed
from panewright.pack.figures.finished import finished
from panewright.pack.figures.label import limits, rated
from panewright.pack.figures.scale import figure
from panewright.pack.kit_claim import claims, what
from panewright.pack.pages import caution
from panewright.pack.verdict import cells_in_words, size
from panewright.price.money import amount
from panewright.price.offers.breaks import Break
from panewright.price.offers.carriage import UNKNOWN
from panewright.price.offers.offer import Offer, as_told
from panewright.units import THIN

NOT_INCLUDED = {
    "mounting": "what carries the panel, and fixing it there",
    "electrical": "controller, battery, fuses, cable beyond the panel's own leads",
    "permit": "permits, inspections, joining to the grid or to a building's wiring",
    "test": "type tests, listing or certificates: a hand-built panel has none",
}


_PREDICTED = "Watts, volts and amperes are predicted at STC (1000 W/m², AM1.5G, cell at 25 °C)."
_MEASURED = {
    "panel": "The finished panel is measured in the sun, and its report goes with it.",
    "kit": "Whoever builds it measures it in the sun; test sheets go with the kit.",
}


def make_quote(bench: Bench, offer: Offer, stamp: str = "") -> Book:
    """The quote as pages of its own."""
    job = bench.design.order.job
    pages = (_offered(bench, offer), _terms_page(bench, offer))
    order = " ".join(part for part in (job.number, job.name) if part)
    return Book("Quote", order, bench.design.revision, job.paper, pages, job.units, stamp)


def _offered(bench: Bench, offer: Offer) -> Page:
    design, job = bench.design, bench.design.order.job
    name = "One panel" if bench.quote.goods == "panel" else "What one kit becomes"
    drawn = figure(partial(finished, design), Size(168.0, 60.0), name, job.units)
    blocks: list[Block] = [
        Words(_to_whom(bench)),
        Fields(_days(offer), 2) if offer.day is None else Words(_day_words(offer)),
        Words(_what(bench), "lead"),
        Numbers((*rated(design.label, job.units), *limits(design.label, job.units)[-1:])),
        drawn,
        Words(f"{_PREDICTED} {_MEASURED[bench.quote.goods]}", "small"),
        *(Words(words) for words in claims(bench)),
        Heading("What it costs"),
        Numbers(((f"To pay{but_for(offer)}", _whole(bench, offer)),)),
        _sums(bench, offer),
        *(Words(words, "small") for words in carriage_words(offer)),
    ]
    return Page("Quote", tuple(blocks))


def _to_whom(bench: Bench) -> str:
    job = bench.design.order.job
    to = f"To {job.customer}" if job.customer else "To whom it is given"
    return f"{to}, from {job.maker}." if job.maker else f"{to}."


def _days(offer: Offer) -> tuple[tuple[str, str], ...]:
    return (("day of this quote", ""), (f"valid for {count(offer.terms.valid_days, 'day')}, until", ""))


def _day_words(offer: Offer) -> str:
    assert offer.day is not None
    assert offer.until is not None
    days = count(offer.terms.valid_days, "day")
    return f"{offer.day.isoformat()}; valid for {days}, to the end of {offer.until.isoformat()}."


def _what(bench: Bench) -> str:
    design = bench.design
    order, job = design.order, design.order.job
    if order.kit.is_kit:
        goods = count(job.panels, "kit") + f" for {'a panel' if job.panels == 1 else 'panels'}"
    else:
        goods = count(job.panels, "photovoltaic panel")
    each = "" if job.panels == 1 else " each"
    return (
        f"{goods} of {bench.say(design.label.pmp_w, 'W')}{each}: {cells_in_words(design)}, "
        f"{size(design)} outside, {bench.size(design.structural.pane.sheet.nominal_mm)} "
        f"{design.structural.pane.sheet.material} in an aluminium frame."
    )


def _whole(bench: Bench, offer: Offer) -> str:
    return amount(offer.to_pay.total, bench.quote.currency)


def tax_words(terms: Terms) -> str:
    """How prices are told."""
    if terms.tax is None:
        return "No tax is reckoned."
    rate = f"{(terms.tax.rate * 100).normalize():f}{THIN}% {terms.tax.name}"
    return (
        f"Prices are told with {rate} in them." if terms.tax.included else f"Prices are told without {rate}."
    )


def but_for(offer: Offer) -> str:
    """What a sum leaves out, behind its name; nothing where every part has a price."""
    return f", but for {count(len(offer.without), 'part')} without a price" if offer.without else ""


def _sums(bench: Bench, offer: Offer) -> Table:
    currency, due, panels = bench.quote.currency, offer.to_pay, bench.quote.panels
    rows = [(count(panels, bench.quote.goods), amount(due.each, ""), amount(due.goods, ""))]
    if offer.carriage is not None:
        charge = UNKNOWN if due.carriage is None else amount(due.carriage, "")
        rows.append((offer.carriage.words.capitalize(), "", charge))
    if offer.terms.tax is not None:
        rows += _tax_rows(offer)
    rows.append((f"To pay{but_for(offer)}", "", amount(due.total, "")))
    if offer.deposit is not None:
        share = f"{(offer.terms.deposit * 100).normalize():f}{THIN}%"
        rows.append((f"Of that when ordering, {share}", "", amount(offer.deposit.now, "")))
        rows.append((f"Later{_when(offer.terms)}", "", amount(offer.deposit.later, "")))
    align: tuple[Align, ...] = ("left", "right", "right")
    return Table(("", f"one, {currency}", f"all, {currency}"), tuple(rows), (0.6, 0.2, 0.2), align)


def carriage_words(offer: Offer) -> tuple[str, ...]:
    """What travels how, and why so, in a sentence; none where nobody reckoned it.

    A charge that is to be asked is said to be in no sum.
    """
    sent = offer.carriage
    if sent is None:
        return ()
    said = [f"{sent.goods[:1].upper()}{sent.goods[1:]}."] if sent.goods else []
    said += [f"{sent.words.capitalize()}: {sent.because}."] if sent.because else []
    said += ["Carriage is to be asked; it is not in what is to pay."] if sent.cost is None else []
    return (" ".join(said),) if said else ()


def _tax_rows(offer: Offer) -> list[tuple[str, str, str]]:
    tax, due = offer.terms.tax, offer.to_pay
    assert tax is not None
    name = f"{tax.name} {(tax.rate * 100).normalize():f}{THIN}%"
    if tax.included:
        return [(f"of that {name}", "", amount(due.tax, "")), ("of that without it", "", amount(due.net, ""))]
    together = [("Together without tax", "", amount(due.net, ""))] if due.carriage is not None else []
    return [*together, (name, "", amount(due.tax, ""))]


def _when(terms: Terms) -> str:
    return f": {terms.payment}" if terms.payment else ""


def _terms_page(bench: Bench, offer: Offer) -> Page:
    blocks: list[Block] = []
    if len(offer.breaks) > 1:
        blocks += [Heading("In other numbers"), breaks_table(bench, offer), Words(_OF_BREAKS, "small")]
    blocks += [Heading("On which terms")]
    blocks += [Words(words) for words in _terms(bench, offer)]
    blocks += [Heading("What is not in it"), *(Words(f"– {words}") for words in not_included(bench, offer))]
    if offer.terms.conditions:
        blocks += [Heading("The maker's conditions"), Words(offer.terms.conditions)]
    blocks += [Caution(f"{caution.LIVE_SHORT} {caution.NOT_LISTED}"), _signed()]
    return Page("Numbers and terms", tuple(blocks))


_OF_BREAKS = (
    "Each number is priced as one order: its own bars, cells, batches and hours, what is paid once an order "
    "shared out. Carriage is not in these. A number between two rows is priced on asking."
)


def breaks_table(bench: Bench, offer: Offer) -> Table:
    """Price of one and of all, number by number, as the offer tells prices; a watt of finished panels."""
    currency, goods = bench.quote.currency, bench.quote.goods
    columns = (f"{goods.capitalize()}s", f"One, {currency}", f"All, {currency}", f"A watt, {currency}")
    wide = 3 if goods == "kit" else 4
    rows = tuple(_break_row(found, bench, offer)[:wide] for found in offer.breaks)
    align: tuple[Align, ...] = ("right", "right", "right", "right")
    return Table(columns[:wide], rows, (1 / wide,) * wide, align[:wide])


def _break_row(found: Break, bench: Bench, offer: Offer) -> tuple[str, ...]:
    said = as_told(found, offer.terms)
    mine = "this offer: " if found.panels == bench.quote.panels else ""
    return (f"{mine}{said.panels}", amount(said.each, ""), amount(said.order, ""), amount(said.per_watt, ""))


def _terms(bench: Bench, offer: Offer) -> list[str]:
    terms, currency = offer.terms, bench.quote.currency
    said = [tax_words(terms)]
    if offer.deposit is not None:
        said.append(
            f"When ordering {amount(offer.deposit.now, currency)}, "
            f"later {amount(offer.deposit.later, currency)}{_when(terms)}."
        )
    elif terms.payment:
        said.append(f"Payment: {terms.payment}.")
    else:
        said.append("No deposit is asked; when to pay is to be agreed.")
    said.append(f"The offer stands for {count(terms.valid_days, 'day')} from its day.")
    if offer.without:
        first = "The sum when ordering is a share of what is known. " if offer.deposit else ""
        said.append(f"{first}No price is known yet of {listed(offer.without)}: it comes on top.")
    return said


def not_included(bench: Bench, offer: Offer) -> tuple[str, ...]:
    """What a reader might take to be in the price and is not."""
    carried = {line.group for line in bench.quote.lines}
    said = [words for group, words in NOT_INCLUDED.items() if group != "mounting" or group not in carried]
    at_site = [part.name for part in bench.design.structural.mounting.parts if part.at_site]
    if at_site and "mounting" in carried:
        said.insert(0, f"{listed(at_site)}: had at the site")
    said[:0] = [f"{name}: no price is known yet" for name in offer.without]
    if offer.carriage is None or offer.carriage.cost is None:
        said.insert(0, "carriage: collected at the workshop, or asked for")
    if offer.terms.tax is None:
        said.append("taxes and duties, where any are due")
    said += [f"{what(line)}: the customer brings it" for line in bench.quote.brought]
    if bench.design.order.kit.is_kit:
        said.append("the work of building: the customer does it by the assembly book, and answers for it")
    return tuple(said)


def _signed() -> Fields:
    return Fields((("ordered by", ""), ("day", "")), 2)
