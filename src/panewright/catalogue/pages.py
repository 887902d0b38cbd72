"""A catalogue as pages: what holds and where, a price list for each cell format, safe winds, what fails."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from panewright.catalogue.columns import fitted
from panewright.catalogue.offer import NOT_LISTED, PRICES, WIND, Offer, by_format, format_of, where
from panewright.catalogue.row import Carried, Figures, Row
from panewright.catalogue.wind_chart import TIMES, layup, wind_blocks, wind_figure
from panewright.drawing.sheet import Block, Book, Caution, Numbers, Page, Table, Words
from panewright.price.money import amount, cents
from panewright.shelf.carriage import Carrier
from panewright.units import show

BY = (
    "Crate and carriage: what they add to the price of one, as a quote of it says; a dash where it is "
    "collected or the charge is to be asked. Then how it travels, and what keeps it from being a parcel: "
    "length, girth or mass of the crate past the tariff that comes nearest; its mass by volume, where the "
    "tariff ends; lifting, where two people may not carry it; shock, where it does not bear a parcel’s fall. "
    "No word: the cheapest way. The workbook has the figures of each size."
)
PARCELS = "Limits of the parcel tariffs:"
SENT = "Crate and carriage"  #: of one, beside its prices at the workshop; and how it travels
_MOST_FAILING = 150  # lines of what does not hold; the workbook has all of them
_INCH_MM, _POUND_KG = 25.4, 0.45359237


def book(offer: Offer) -> Book:
    """The price list to print and to send."""
    job = offer.job
    order = " ".join(part for part in (job.number, job.name) if part)
    pages = (_front(offer), *_price_pages(offer), *_wind_pages(offer), *_failing_pages(offer))
    return Book("Price list", order, offer.revision, job.paper, pages, job.units)


def _front(offer: Offer) -> Page:
    job, held = offer.job, offer.holding
    maker = f" by {job.maker}" if job.maker else ""
    count = f"{len(held)} of {len(offer.rows)} sizes hold every check"
    blocks: list[Block] = [Words(f"{job.name}{maker}: {count}.", "lead")]
    if held:
        blocks.append(Numbers(_span(offer)))
    blocks += [Words(where(offer)), Words(PRICES), Words(WIND)]
    unpriced = max((row.figures.unpriced for row in offer.rows if row.figures), default=0)
    if unpriced:
        blocks.append(
            Words("Some sizes have parts without a price on the shelf: their sum leaves those out.")
        )
    return Page("Price list", (*blocks, Caution(NOT_LISTED)))


def _span(offer: Offer) -> tuple[tuple[str, str], ...]:
    """From the least to the most of what holds."""
    found = [row.figures for row in offer.holding if row.figures]
    say, currency = offer.job.units, offer.job.currency
    watts = sorted(each.pmp_w for each in found)
    price = sorted(each.prices[0] for each in found)
    watt = sorted(each.per_watt for each in found)
    return (
        ("Sizes that hold", str(len(found))),
        ("From", show(watts[0], "W", say)),
        ("To", show(watts[-1], "W", say)),
        ("Least price", amount(price[0], currency)),
        ("Highest price", amount(price[-1], currency)),
        ("A watt, cheapest", amount(watt[0], currency)),
    )


def _price_pages(offer: Offer) -> Iterator[Page]:
    """A page, or more, for each cell format: a table for each glass and rail."""
    for name, rows in by_format(offer.holding):
        tables = []
        for (glass, rail), group in _by_glass(rows, offer):
            tables.append(
                _price_table(tuple(group), offer, ", ".join(part for part in (glass, rail) if part))
            )
        yield Page(f"Cells: {name}", (*tables, *_why_so(rows, offer)))


def _why_so(rows: tuple[Row, ...], offer: Offer) -> tuple[Block, ...]:
    """What stands behind a word such as 'freight: girth', with the limits of the parcel tariffs."""
    if not any(row.figures and row.figures.carried for row in rows):
        return ()
    units = offer.job.units
    limits = "; ".join(
        parcel_limits(each, units) for each in offer.family.order.crate.carriers if each.kind == "parcel"
    )
    words = BY if not limits else f"{BY} {PARCELS} {limits}."
    return (Words(words, "small"),)


def parcel_limits(carrier: Carrier, units: str) -> str:
    """A parcel tariff's limits in words."""
    said = [f"{show(carrier.longest_mm, 'mm', units, 4)} long"]
    if carrier.girth_mm is not None:
        said.append(f"{show(carrier.girth_mm, 'mm', units, 4)} of length plus girth")
    said.append(show(carrier.most_kg, "kg", units))
    return f"{carrier.name}: {', '.join(said)}"


def _by_glass(rows: tuple[Row, ...], offer: Offer) -> Iterator[tuple[tuple[str, str], list[Row]]]:
    """Rows of one glass, and of one rail where the range varies it, by the cells they hold."""

    def key(row: Row) -> tuple[str, str]:
        pinned = len(offer.family.rails) > 1 and row.figures is not None
        return row.glass, row.figures.rail if pinned and row.figures else ""

    known = list(dict.fromkeys(key(row) for row in rows))
    for each in known:
        yield each, sorted((row for row in rows if key(row) == each), key=_size)


def _size(row: Row) -> tuple[int, int]:
    return row.cells, row.columns


def _price_table(rows: tuple[Row, ...], offer: Offer, caption: str) -> Table:
    us, currency = offer.job.units == "us", offer.job.currency
    size, mass, speed = ("in", "lb", "mph") if us else ("mm", "kg", "m/s")
    carried = any(row.figures and row.figures.carried for row in rows)
    prices = tuple("One" if n == 1 else f"Each of {n}" for n in offer.family.quantities)
    heads = (
        "Cells",
        f"Outside, {size}",
        "W",
        "Vmp / Voc, V",
        "Isc, A",
        mass,
        f"Wind, {speed}",
        *prices,
        "A watt",
        *((SENT,) if carried else ()),
    )
    lines = tuple(_price_line(row, row.figures, us, carried) for row in rows if row.figures)
    words = {n for n, head in enumerate(heads) if head == SENT}
    return fitted(heads, lines, f"{caption}; prices in {currency} at the workshop", left={0, 1} | words)


def _price_line(row: Row, found: Figures, us: bool, carried: bool) -> tuple[str, ...]:
    sent = (_sent(found.carried),) if carried else ()
    wind = found.safe_wind_m_s
    return (
        layup(row.columns, row.rows),
        f"{_length(found.long_mm, us)}{TIMES}{_length(found.short_mm, us)}",
        f"{found.pmp_w:.0f}" if found.pmp_w >= 100 else f"{found.pmp_w:.1f}",
        f"{found.vmp_v:.1f}\u00a0/\u00a0{found.voc_v:.1f}",
        f"{found.isc_a:.2f}",
        f"{found.mass_kg / (_POUND_KG if us else 1):.1f}",
        wind_figure(wind, us=us),
        *(f"{cents(each):.2f}" for each in (*found.prices, found.per_watt)),
        *sent,
    )


def _sent(carried: Carried | None) -> str:
    """What crate and carriage of one cost, then parcel, or freight with what decides."""
    if carried is None:
        return "–"
    way = carried.way if carried.by in ("", "price") else f"{carried.way}: {carried.by}"
    return f"{'–' if carried.cost is None else f'{carried.cost:.2f}'} {way}"


def _length(length_mm: float, us: bool) -> str:
    return f"{length_mm / _INCH_MM:.1f}" if us else f"{length_mm:.0f}"


def _wind_pages(offer: Offer) -> Iterator[Page]:
    """Safe wind by glass, for each cell format of which any glass is covered."""
    for name, rows in by_format(offer.rows):
        blocks = wind_blocks(rows, offer.job.units)
        if blocks:
            yield Page(f"Safe wind by glass: {name}", (Words(WIND), *blocks))


def _failing_pages(offer: Offer) -> Iterator[Page]:
    """What does not hold, and what would mend it; sizes that fail alike in one line."""
    if not offer.failing:
        return
    lines = [_failing_line(list(group)) for _, group in groupby(offer.failing, key=_alike)]
    shown = lines[:_MOST_FAILING]
    table = Table(
        ("Size", "Glass", "What fails worst", "Cure"),
        tuple(shown),
        (0.17, 0.2, 0.33, 0.3),
        ("left",) * 4,
    )
    blocks: list[Block] = [Words("These sizes are not offered: some check of theirs fails.", "lead"), table]
    if len(lines) > len(shown):
        blocks.append(Words(f"{len(lines) - len(shown)} further lines stand in the workbook.", "small"))
    yield Page("What does not hold", tuple(blocks))


def _alike(row: Row) -> tuple[str, str, int, int, str]:
    return row.cell, row.cut, row.columns, row.rows, row.fails.split(":")[0]


def _failing_line(rows: list[Row]) -> tuple[str, str, str, str]:
    first = rows[0]
    size = f"{format_of(first)}, {layup(first.columns, first.rows)}"
    return size, "; ".join(dict.fromkeys(row.glass for row in rows)), first.fails, first.cure
