"""What goes into the box of a kit: boxes to tick, counts, spares and masses; and what the customer brings."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from panewright.crate.crated import crated
from panewright.drawing.drawing import Align
from panewright.drawing.listing import Column, Listing
from panewright.drawing.sheet import Block, Book, Caution, Fields, Heading, Numbers, Page, Table, Words
from panewright.pack.bench import Bench, count
from panewright.pack.customary import counted
from panewright.pack.kit_claim import claims
from panewright.pack.pages import caution
from panewright.pack.sent import asked_for_kits
from panewright.pack.sent import boxed as in_a_box
from panewright.pack.steps.takes import amount_said
from panewright.price.bill import PIECES
from panewright.price.kit import Boxed, total_kg

PAPERS = (
    ("assembly book", "assembly.pdf, printed"),
    ("template, full size", "template.pdf, printed; its check bar must measure true"),
    ("label", "label.svg, printed on weatherproof stock"),
    ("test sheets", "last pages of the assembly book"),
)
_FOR_BROUGHT = {
    "glass": ("order sheet for the glass shop", "glass.pdf: send it when the kit is ordered"),
    "frame": ("drilling jig for the rails", "jig.pdf, printed; its check bar must measure true"),
}  #: by what the customer brings
_OF_MASS = (
    "Masses are those of the parts list; what has none is not in the sum. Carton, padding and papers come on "
    "top: weigh the closed box."
)


def boxed(bench: Bench) -> tuple[Boxed, ...]:
    """What goes into one box."""
    return in_a_box(bench.design, bench.quote.lines)


@dataclass(frozen=True, slots=True)
class Box:
    """One box as it is packed: its serial, and by `line_key` who put which line in, and when."""

    serial: str
    number: int  #: of the boxes of the order, from 1
    packed: Mapping[str, str] = field(default_factory=dict)


def line_key(each: Boxed) -> str:
    """The key under which a line is ticked."""
    return f"kit: {each.name} {each.size}"[:200].strip()


def paper_key(name: str) -> str:
    """The same of a paper."""
    return f"kit paper: {name}"


def kit_book(bench: Bench, order: str, stamp: str, box: Box | None = None) -> Book:
    """The packing list as a document of its own; of one box with what lies in it."""
    job = bench.design.order.job
    pages = (_packing_page(bench, box),)
    return Book("Kit", order, bench.design.revision, job.paper, pages, job.units, stamp)


def papers(bench: Bench) -> tuple[tuple[str, str], ...]:
    """What is printed for the box, and what the customer needs to have parts made."""
    brings = bench.design.order.kit.brings
    return PAPERS + tuple(paper for group, paper in _FOR_BROUGHT.items() if group in brings)


def _packing_page(bench: Bench, box: Box | None) -> Page:
    lines, boxes, sent = boxed(bench), bench.design.order.job.panels, papers(bench)
    several = (
        "Each box holds the same; tick one copy of this list a box. " if boxes > 1 and box is None else ""
    )
    heavy, long = ("lb", "in") if bench.design.order.job.units == "us" else ("kg", "mm")
    blocks: list[Block] = [
        Words(f"{several}Count twice, tick, sign. Spares are in the counts."),
        _whose(box, boxes),
        Numbers(
            (
                ("Lines", str(len(lines) + len(sent))),
                ("Content, by the parts list", bench.say(total_kg(lines), "kg")),
                ("Boxes", str(boxes)),
            )
        ),
        _table(bench, lines, box),
        _papers(sent, box),
        Heading("How it travels"),
        *_travels(bench, lines),
        Fields((("closed box weighs", heavy), ("box, long × wide × high", long)), 2),
        Words(_OF_MASS, "small"),
        *_brought(bench),
        *(Words(words) for words in claims(bench)),
        *hurting(bench.design.order.kit.brings),
    ]
    return Page("Packing list", tuple(blocks))


def hurting(brings: tuple[str, ...]) -> tuple[Caution, ...]:
    """What of a box can hurt the hand that packs or opens it."""
    there = (("glass", caution.GLASS_EDGE), ("cells", caution.WAFER))
    words = " ".join(said for group, said in there if group not in brings)
    return (Caution(words),) if words else ()


def _travels(bench: Bench, lines: tuple[Boxed, ...]) -> Iterator[Block]:
    """The package, the crate round it, who carries it and why."""
    ask = asked_for_kits(bench.design, lines)
    package = " × ".join(
        bench.size(side) for side in (ask.panel.long_mm, ask.panel.short_mm, ask.panel.deep_mm)
    )
    yield Words(f"Package of one kit, flat: {package}. {crated(ask).reason}")


def _whose(box: Box | None, boxes: int) -> Block:
    """Box and serial, to be written in where they are not known."""
    if box is None:
        return Fields((("box", f"of {boxes}"), ("serial", ""), ("packed by", ""), ("day", "")), 4)
    told = (
        ("Box", f"{box.number} of {boxes}"),
        ("Serial", box.serial),
        ("Lines in it", str(len(box.packed))),
    )
    return Numbers(told)


def _papers(sent: tuple[tuple[str, str], ...], box: Box | None) -> Table:
    if box is None:
        return Table(("Papers", ""), sent, (0.35, 0.65), ("left", "left"), ticks=True)
    rows = tuple((name, words, box.packed.get(paper_key(name), "")) for name, words in sent)
    return Table(("Papers", "", "Put in by"), rows, (0.25, 0.45, 0.3), ("left",) * 3, ticks=True)


def _table(bench: Bench, lines: tuple[Boxed, ...], box: Box | None) -> Table:
    columns = ("Part", "Size", "In the box", "spare", "Mass")
    rows = tuple(row(bench, each) for each in lines)
    if box is not None:
        told = tuple(
            (*said, box.packed.get(line_key(each), "")) for said, each in zip(rows, lines, strict=True)
        )
        sides: tuple[Align, ...] = ("left", "left", "right", "right", "right", "left")
        return Table((*columns, "Put in by"), told, (0.28, 0.17, 0.14, 0.09, 0.1, 0.22), sides, ticks=True)
    align: tuple[Align, ...] = ("left", "left", "right", "right", "right")
    return Table(columns, rows, (0.42, 0.22, 0.14, 0.1, 0.12), align, ticks=True)


def row(bench: Bench, each: Boxed) -> tuple[str, ...]:
    """Name, size, how much goes in, how much of it is spare, and mass, in the order's units."""
    spare = (
        _figure(bench, each.spare, "each" if each.sold_by in PIECES else each.sold_by) if each.spare else ""
    )
    mass = _mass(bench, each.mass_kg)
    return (each.name, each.size, _figure(bench, each.amount, each.sold_by), spare, mass)


def _mass(bench: Bench, mass_kg: float | None) -> str:
    """A dash where nobody knows it."""
    return "–" if mass_kg is None else bench.mass(mass_kg)


def _figure(bench: Bench, amount: Decimal, sold_by: str) -> str:
    return counted(amount, sold_by, bench.design.order.job.units)


def _brought(bench: Bench) -> list[Block]:
    """What the customer has to have, as the drawings ask it."""
    theirs = bench.quote.brought
    if not theirs:
        return []
    rows = tuple((line.name, line.size, amount_said(bench, line)) for line in theirs)
    them = "it" if len(theirs) == 1 else "them"
    words = (
        f"{count(len(theirs), 'line')} not in the box: the customer brings {them}, as the drawings ask, for "
        "one panel and nothing lost. Have spares."
    )
    head = ("Part", "Size", "One panel takes")
    return [
        Heading("The customer brings"),
        Words(words),
        Table(head, rows, (0.4, 0.25, 0.35), ("left", "left", "left"), ticks=True),
    ]


def kit_listing(bench: Bench) -> Listing:
    """The packing list for a program or a spreadsheet."""
    columns = (
        Column("Group"),
        Column("Part"),
        Column("Size"),
        Column("In the box", "", "number"),
        Column("Of that spare", "", "number"),
        Column("Counted by"),
        Column("Mass", "kg", "number"),
    )
    rows = tuple(
        (
            *(each.group, each.name, each.size, each.amount, each.spare, each.sold_by),
            None if each.mass_kg is None else round(each.mass_kg, 4),
        )
        for each in boxed(bench)
    )
    return Listing("Kit", columns, rows)
