"""A design and its quote become the leaves of a pack."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from panewright.circuit.account import Account
from panewright.crate.crated import Crated, crated
from panewright.drawing.listing import Column, Listing
from panewright.drawing.sheet import Book
from panewright.layup.drawn.template import template
from panewright.pack.bench import Bench
from panewright.pack.carriage import carriage
from panewright.pack.drawn import drawing_leaves
from panewright.pack.figures.label import labels
from panewright.pack.heading import order_words, stamp
from panewright.pack.leaf import (
    BookLeaf,
    CsvLeaf,
    Leaf,
    Pack,
    RecordLeaf,
    SvgLeaf,
    TemplateLeaf,
    WorkbookLeaf,
)
from panewright.pack.pages.assembly import assembly_book
from panewright.pack.pages.book import make_book
from panewright.pack.pages.crate import crate_book
from panewright.pack.pages.kit import Box, kit_book, kit_listing, papers
from panewright.pack.pages.plan import plan_page
from panewright.pack.pages.quote import make_quote
from panewright.pack.plan.panels import Asked
from panewright.pack.sent import asked
from panewright.pack.verdict import sentence
from panewright.panel.design import Design
from panewright.panel.electric.watts import account_at_work
from panewright.price.offers.offer import Offer, offer
from panewright.price.offers.quote import Quote

RECORD = "design.json"


@dataclass(frozen=True, slots=True)
class Judged:
    """One check with its verdict, which a program should not have to work out."""

    rule: str
    room: str
    verdict: str
    demand: float
    limit: float | None
    unit: str
    utilisation: float
    source: str
    cure: str


@dataclass(frozen=True, slots=True)
class Record:
    """The whole order for a program: the verdict first."""

    proven: bool
    verdict: str
    revision: str
    checks: tuple[Judged, ...]
    design: Design
    quote: Quote
    watts: Account  #: from the bare cells to the panel at work
    crate: Crated  #: how the panels or the kits travel
    leaves: tuple[str, ...] = ()  #: files of the pack, this one among them


def record(design: Design, quote: Quote) -> Record:
    """Everything that is known of one order."""
    checks = tuple(
        Judged(
            check.rule,
            check.room,
            check.verdict,
            check.demand,
            check.limit,
            check.unit,
            check.utilisation,
            check.source,
            check.cure,
        )
        for check in design.checks
    )
    watts = account_at_work(design)
    travels = crated(asked(design, quote.lines))
    words = sentence(design.checks)
    return Record(design.proven, words, design.revision, checks, design, quote, watts, travels)


def with_verdict(listing: Listing, proven: bool) -> Listing:
    """A list whose last column says on every row whether the design is proven, for programs too."""
    rows = tuple((*row, "yes" if proven else "no") for row in listing.rows)
    return replace(listing, columns=(*listing.columns, Column("Proven")), rows=rows)


def quote_leaf(design: Design, quote: Quote, offered: Offer) -> BookLeaf:
    """The quote to send; stamped where the design is not proven."""
    return BookLeaf("quote.pdf", make_quote(Bench(design, quote), offered, stamp(design)))


def plan_leaf(design: Design, quote: Quote, wanted: Asked, start: date) -> BookLeaf:
    """The plan of so many panels by so many people from a day on, to hang up."""
    bench, job = Bench(design, quote), design.order.job
    page = plan_page(bench, wanted, start)
    book = Book("Plan", order_words(design), design.revision, job.paper, (page,), job.units, stamp(design))
    return BookLeaf("plan.pdf", book)


def box_leaf(design: Design, quote: Quote, box: Box) -> BookLeaf:
    """The packing list of one box with what lies in it."""
    bench = Bench(design, quote)
    return BookLeaf("box.pdf", kit_book(bench, order_words(design), stamp(design), box))


def kit_leaves(design: Design, quote: Quote) -> tuple[Leaf, ...]:
    """The papers of a kit: packing list, the same for programs, assembly book, all that the list names."""
    bench = Bench(design, quote)
    named = {leaf.name: leaf for leaf in (template_leaf(design), *drawing_leaves(bench), label_leaf(design))}
    said = " ".join(words for _, words in papers(bench))
    return (*_kit_lists(bench), *(leaf for name, leaf in named.items() if name in said))


def _kit_lists(bench: Bench) -> tuple[Leaf, ...]:
    """What a kit has beside the papers of every panel."""
    design = bench.design
    order, mark = order_words(design), stamp(design)
    return (
        BookLeaf("kit.pdf", kit_book(bench, order, mark)),
        CsvLeaf("kit.csv", with_verdict(kit_listing(bench), design.proven)),
        BookLeaf("assembly.pdf", assembly_book(bench, order, mark)),
    )


def template_leaf(design: Design) -> TemplateLeaf:
    """The lay-up at full size, to print and work over."""
    job, drawn = design.order.job, template(design.layup)
    order, mark = order_words(design), stamp(design)
    return TemplateLeaf("template.pdf", drawn, order, design.revision, job.paper, job.units, mark)


def label_leaf(design: Design) -> SvgLeaf:
    """The labels of the order, each with its serial."""
    return SvgLeaf("label.svg", labels(design.label, design.order.job, design.proven, design.order.kit))


def make_pack(design: Design, quote: Quote, offered: Offer | None = None) -> Pack:
    """Every leaf of one order: book, quote to send, template, drawings, lists, record, label.

    `offered` brings price breaks; without it the order's own number is priced alone.
    """
    bench, mark = Bench(design, quote), stamp(design)
    parts, cuts, *others = quote.listings
    known = record(design, quote)
    offered = offered or offer(design, quote, reckoned=carriage(design, known.crate))
    book = make_book(design, quote, known.watts, known.crate, offered)
    leaves: tuple[Leaf, ...] = (
        BookLeaf("book.pdf", book),
        quote_leaf(design, quote, offered),
        template_leaf(design),
        *drawing_leaves(bench),
        BookLeaf("crate.pdf", crate_book(book)),
        WorkbookLeaf("parts.xlsx", (parts, cuts, *others), mark),
        CsvLeaf("parts.csv", with_verdict(parts, design.proven)),
        CsvLeaf("cuts.csv", with_verdict(cuts, design.proven)),
    )
    last: tuple[Leaf, ...] = (label_leaf(design), *(_kit_lists(bench) if design.order.kit.is_kit else ()))
    names = (*(leaf.name for leaf in leaves), RECORD, *(leaf.name for leaf in last))
    return Pack((*leaves, RecordLeaf(RECORD, replace(known, leaves=names)), *last))
