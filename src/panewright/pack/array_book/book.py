"""An array's book and its other papers, from its plan: the same plan gives the same pages."""

from __future__ import annotations

from dataclasses import replace

from panewright.array.plan.plan import Plan
from panewright.drawing.drawing import Drawing
from panewright.drawing.paper_size import Paper
from panewright.drawing.sheet import Book
from panewright.drawing.title import Title, with_title
from panewright.layup.drawn.signs import SIDE_WORDS
from panewright.pack.array_book import pages
from panewright.pack.array_book.drawn.schemed import scheme_of
from panewright.pack.array_book.drawn.single_line import whole
from panewright.pack.array_book.drawn.stand import stand_drawing
from panewright.pack.array_book.front import front_page
from panewright.pack.array_book.listings import listings
from panewright.pack.figures.titled import marked
from panewright.pack.heading import NOT_PROVEN
from panewright.pack.leaf import BookLeaf, CsvLeaf, DxfLeaf, Leaf, SvgLeaf, WorkbookLeaf
from panewright.panel.revision import short_name

BOOK, LISTS = "array.pdf", "array.xlsx"
_LETTER_MM = 60.0  # of words on a stand at full size
_DIAGRAM_MM = 2.2  # of words in a diagram's title


def revision(plan: Plan) -> str:
    """Eight letters and digits from the site's text and from what is known of its panels."""
    text = "\n".join(plan.site.text.splitlines())
    known = [(placed.known_by, placed.plate) for placed in plan.panels]
    return short_name(f"{text}\0{known!r}")


def array_book(plan: Plan, paper: Paper | None = None) -> Book:
    """All pages of an array, on the site's paper or on another."""
    if paper and paper != plan.site.named.paper:
        plan = _on(plan, paper)
    optional = (pages.sure_page, pages.bank_page, pages.pump_page)
    made = [
        front_page(plan),
        pages.work_page(plan),
        *pages.line_pages(plan),
        *pages.stand_pages(plan),
        pages.strings_page(plan),
        pages.cables_page(plan),
        pages.needs_page(plan),
        pages.limits_page(plan),
        pages.energy_page(plan),
        *(page for make in optional if (page := make(plan)) is not None),
        pages.cost_page(plan),
        pages.assumed_page(plan),
    ]
    named = plan.site.named
    stamp = "" if plan.proven else NOT_PROVEN
    kept = tuple(page for page in made if page is not None)
    return Book("Array", named.name, revision(plan), named.paper, kept, named.units, stamp)


def _on(plan: Plan, paper: Paper) -> Plan:
    """The same plan, to be printed on another paper."""
    named = replace(plan.site.named, paper=paper)
    return replace(plan, site=replace(plan.site, named=named))


def array_leaves(plan: Plan) -> tuple[Leaf, ...]:
    """Every paper: the book, the drawings for screens and machines, the lists."""
    return (book_leaf(plan), *leaves_beside(plan))


def book_leaf(plan: Plan) -> BookLeaf:
    """The book alone."""
    return BookLeaf(BOOK, array_book(plan))


def leaves_beside(plan: Plan) -> tuple[Leaf, ...]:
    """All papers but the book: they take no time to make."""
    units = plan.site.named.units
    note = "" if plan.proven else NOT_PROVEN
    lists = listings(plan)
    line = _titled(plan, whole(scheme_of(plan)), "none: a diagram", _DIAGRAM_MM)
    drawn: list[Leaf] = [SvgLeaf("single-line.svg", line), DxfLeaf("single-line.dxf", line, units)]
    for number in sorted({placed.stand for placed in plan.panels}):
        drawing = _titled(plan, stand_drawing(plan, number, _LETTER_MM), "1 : 1", _LETTER_MM)
        drawn += [
            SvgLeaf(f"stand-{number + 1}.svg", drawing),
            DxfLeaf(f"stand-{number + 1}.dxf", drawing, units),
        ]
    tables = tuple(CsvLeaf(f"{listing.name.replace(' ', '-')}.csv", listing) for listing in lists)
    return (*drawn, WorkbookLeaf(LISTS, lists, note), *tables)


def _titled(plan: Plan, drawing: Drawing, scale: str, letter_mm: float) -> Drawing:
    """A drawing that leaves the book: whose it is, of which state, and whether its limits hold."""
    named, mark = plan.site.named, "" if plan.proven else NOT_PROVEN
    title = Title(
        name=drawing.name,
        order=named.name,
        revision=revision(plan),
        material="",
        scale=scale,
        units="millimetres" if named.units == "metric" else "inches",
        side=SIDE_WORDS[drawing.side] or "a diagram",
        tolerance="places of poles and leads are not to scale",
        mark=mark,
    )
    return marked(with_title(drawing, title, named.units, letter_mm), mark, named.units)
