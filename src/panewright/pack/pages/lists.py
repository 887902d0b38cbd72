"""Cut list, parts list, hours and money as pages."""

from __future__ import annotations

from collections import defaultdict
from decimal import Decimal

from panewright.cutting.plan import BarCut, CutPlan
from panewright.drawing.drawing import Align
from panewright.drawing.sheet import Block, Caution, Heading, Page, Table, Words
from panewright.pack.bench import Bench, count
from panewright.pack.customary import Units, measure
from panewright.pack.figures.bars import bars_figure
from panewright.pack.pages import caution
from panewright.pack.pages.table import widths, words_table
from panewright.price.bill import PIECES, Line
from panewright.price.hours import Work
from panewright.price.money import amount
from panewright.structure.panes.cut_glass import HEATED
from panewright.units import THIN, written


def lists_pages(bench: Bench) -> tuple[Page, ...]:
    """What to cut, what to buy, how long it takes and what it costs."""
    return (_cuts(bench), _parts(bench), _money(bench))


def _cuts(bench: Bench) -> Page:
    """Bars as bars, then the pieces in words, glass and ribbon."""
    design, cuts = bench.design, bench.quote.cuts
    blocks: list[Block] = [Caution(caution.CHIPS)]
    if cuts is None:
        blocks.append(
            Words("A rail is longer than the bar it is cut from. Choose a longer bar or another rail.")
        )
    else:
        panels = count(design.order.job.panels, "panel")
        blocks += [
            Heading(f"Rails of {panels}: {design.structural.rail.name}"),
            Words(_bars_words(bench, cuts)),
        ]
        figure = bars_figure(cuts, design.order.job.units)
        blocks += [figure] if figure else []
        blocks.append(
            words_table(("Bars", "Cut from each, in this order", "Left over"), _bar_rows(bench, cuts))
        )
    blocks += [Heading("Glass"), Words(_glass_words(bench))]
    return Page("Cut list", tuple(blocks))


def _bars_words(bench: Bench, cuts: CutPlan) -> str:
    saw = cuts.saw
    bought = ", ".join(f"{number} of {bench.say(length, 'mm')}" for length, number in cuts.counts)
    best = "No plan buys less." if cuts.proven else "This plan may be bettered; it is within its bound."
    return (
        f"Buy bars: {bought}. Saw cut {bench.size(saw.kerf_mm)}, {bench.size(saw.trim_mm)} trimmed off "
        f"each end. {cuts.waste:.0%} of the bars becomes chips, ends and remnants. {best}"
    )


def _bar_rows(bench: Bench, cuts: CutPlan) -> tuple[tuple[str, ...], ...]:
    return tuple(
        (f"{number} ×", _bar_words(bench, bar), bench.say(bar.remnant_mm, "mm"))
        for bar, number in cuts.grouped
    )


def _bar_words(bench: Bench, bar: BarCut) -> str:
    """Pieces of one bar; equal neighbours told once."""
    said: dict[tuple[str, float], int] = defaultdict(int)
    for piece in bar.pieces:
        said[(piece.name, piece.length_mm)] += 1
    return "; ".join(f"{n} × {name} {bench.size(length)}" for (name, length), n in said.items())


def _glass_words(bench: Bench) -> str:
    pane, panels = bench.design.structural.pane, bench.design.order.job.panels
    sides = f"{bench.size(pane.long_mm)} × {bench.size(pane.short_mm)}"
    order = f"{count(panels, 'pane')} {pane.sheet.name}, {sides}, edges ground."
    if pane.sheet.treatment not in HEATED:
        return order
    return (
        f"{order} Order it to this size: {pane.sheet.treatment} glass is cut, drilled and ground before it "
        "is heated and never after, nor is a larger stock pane cut down. Measure twice, order once."
    )


def _parts(bench: Bench) -> Page:
    """The parts list, a heading a group; what crates take beside it, as no panel takes a share of a screw."""
    quote, units = bench.quote, bench.design.order.job.units
    blocks: list[Block] = [
        Words(
            f"For {count(quote.panels, quote.goods)}. What is lost at the bench is counted in what to buy."
        ),
        _bought(bench, tuple(line for line in quote.lines if line.per_crate is None), quote.goods),
        *_crated(bench),
        Words(f"Parts of the order: {amount(quote.parts, quote.currency)}.", "lead"),
        *(Words(note) for note in quote.notes),
        Words(
            "Shares lost: cells by the chance that enough good ones are left in 19 of 20 orders where 3 "
            "in 100 break; tabbing ribbon 3 %, bus ribbon 10 %, sealant 10 %. Common practice, no source.",
            "small",
        ),
        *((Words(_TURNED, "small"),) if units == "us" else ()),
        Heading("What one panel weighs"),
        words_table(("Part", "Mass") * 2, _mass_rows(bench)),
    ]
    return Page("Parts", tuple(blocks))


def _crated(bench: Bench) -> list[Block]:
    """What goes round the panels, for one crate and for all."""
    lines = tuple(line for line in bench.quote.lines if line.per_crate is not None)
    if not lines:
        return []
    told = (
        f"{count(bench.quote.crates, bench.quote.shell)} for {count(bench.quote.panels, bench.quote.goods)}"
    )
    return [Heading(f"Packing: {told}"), _bought(bench, lines, bench.quote.shell)]


def _bought(bench: Bench, lines: tuple[Line, ...], goods: str) -> Table:
    """What one of the goods takes of each part, what to buy for the order, what it costs."""
    money, units = bench.quote.currency, bench.design.order.job.units
    columns = ("", "Part", f"One {goods} takes", "Buy", "", f"Price, {money}", f"Cost, {money}")
    rows = tuple(_part_row(line, before, units) for line, before in zip(lines, (None, *lines), strict=False))
    align: tuple[Align, ...] = ("left", "left", "right", "right", "left", "right", "right")
    return Table(columns, rows, widths(columns, rows), align)


_TURNED = (
    "Sold by the metre, square metre, kilogram or litre and written here in ft, ft², lb and fl oz; prices "
    "of one are rounded, costs are not."
)
_PER = {"metres of bead": ("metre", "of bead"), "kilograms of pour": ("kilogram", "of pour")}
_ONE = {
    "trial patches": "trial patch",
    "batches of pour": "batch of pour",
    "kits in cartons": "kit in a carton",
    "seats cut back": "seat cut back",
}


def _mass_rows(bench: Bench) -> tuple[tuple[str, ...], ...]:
    """Parts and their masses in two columns, the whole last."""
    mass = bench.design.structural.mass
    rows = [(name, bench.mass(kilograms)) for name, kilograms in mass.parts]
    rows.append(("all together", bench.say(mass.total_kg, "kg")))
    half = (len(rows) + 1) // 2
    beside = [*rows[half:], *[("", "")] * (2 * half - len(rows))]
    return tuple((*one, *other) for one, other in zip(rows[:half], beside, strict=True))


def _part_row(line: Line, before: Line | None, units: Units) -> tuple[str, ...]:
    """A line of the list; its group stands where it begins."""
    group = line.group if before is None or before.group != line.group else ""
    name = f"{line.name}, {line.size}" if line.size else line.name
    by = measure(line.sold_by, units)
    takes = line.one if line.per_crate is None else line.per_crate
    one, buy = f"{by.amount(takes):f}", f"{by.amount(line.buy):f}"
    price = None if line.price is None else by.price(line.price)
    unit = f"{by.name}s" if line.sold_by in PIECES and by.name and line.buy != 1 else by.name
    return (group, name, one, buy, unit, _plain(price), _plain(line.cost))


def _plain(money: Decimal | None) -> str:
    return "ask" if money is None else f"{money:,.2f}".replace(",", THIN)


def _counted(work: Work, units: Units) -> str:
    """How many of what: '4 rails', '1 panel'."""
    if work.per in _PER:
        sold_by, words = _PER[work.per]
        by = measure(sold_by, units)
        return f"{by.amount(work.count):f}{THIN}{by.name} {words}"
    per = _ONE.get(work.per, work.per.removesuffix("s")) if work.count == 1 else work.per
    return f"{work.count.normalize():f} {per}"


def _each(work: Work, units: Units) -> str:
    """Minutes for one of what is counted."""
    if work.per not in _PER:
        return f"{work.each_minutes}"
    minutes = measure(_PER[work.per][0], units).price(work.each_minutes)
    return f"{minutes.quantize(Decimal('0.01')).normalize():f}"


def _share(share: Decimal) -> str:
    """As the order says it: 12.5 % is not 12."""
    return written(float(share), "share")


def _money(bench: Bench) -> Page:
    """Hours by step, then from parts to price."""
    quote, money = bench.quote, bench.design.order.money
    units = bench.design.order.job.units
    columns = ("Step", "Count", "Minutes each", "Hours")
    rows = tuple(
        (
            work.step,
            _counted(work, units),
            _each(work, units),
            f"{work.minutes / 60:.1f}",
        )
        for work in quote.work
    )
    align: tuple[Align, ...] = ("left", "right", "right", "right")
    rate = amount(money.labour_per_hour, quote.currency)
    sums = (
        ("Parts", _plain(quote.parts)),
        (f"Labour, {quote.hours} h at {rate}", _plain(quote.labour)),
        (f"Overhead, {_share(money.overhead)} of parts and labour", _plain(quote.overhead)),
        (f"Margin, {_share(money.margin)} of all of these", _plain(quote.margin)),
        (f"Price of {count(quote.panels, quote.goods)}", _plain(quote.price_order)),
        (f"Price of one {quote.goods}", _plain(quote.price_each)),
        *((("Price of one watt", _plain(quote.price_per_watt)),) if quote.goods == "panel" else ()),
    )
    ends: tuple[Align, ...] = ("left", "right")
    blocks: list[Block] = [
        Words("Minutes are common practice of a practised maker, without a source; change them to your own."),
        Table(columns, rows, widths(columns, rows), align, "The whole order"),
        Heading("From parts to price"),
        Table(("Sum", quote.currency), sums, (0.7, 0.3), ends),
        *(Words(note) for note in quote.notes),
        Words(
            "Every line is rounded half up to cents; the price of the order is that of one times their "
            "number.",
            "small",
        ),
    ]
    return Page("Hours and money", tuple(blocks))
