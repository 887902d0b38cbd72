"""Which cell goes where, on paper: what it comes to, each panel drawn with its cells, rows to tick."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial
from itertools import takewhile

from panewright.drawing.chart import Chart, draw_chart
from panewright.drawing.drawing import Align, Drawing
from panewright.drawing.listing import Cell, Column, Listing
from panewright.drawing.sheet import Block, Book, Figure, Heading, Numbers, Page, Table, Words
from panewright.layup.drawn.figure import Seen, View
from panewright.layup.drawn.seated import seated_view
from panewright.pack.figures.finished import rim
from panewright.pack.figures.labels import Label, label_figures
from panewright.pack.figures.scale import figure, page_room
from panewright.pack.figures.titled import STRIP_MM, strip, title_of
from panewright.pack.heading import order_words, stamp
from panewright.pack.pages.table import words_table
from panewright.panel.design import Design

_WORDS_MM = 20.0 + STRIP_MM
_BOTH: tuple[Seen, ...] = ("behind", "front")
_KEYS = ("Isc", "Voc", "Imp", "Vmp")
_NOTED = ("Grade", "Remark")
_LEFT: Align = "left"
_SHARES = {  # of a row's width, by which of the two are written of its panel's cells
    (): (0.1, 0.3, 0.2, 0.2, 0.1, 0.1),
    (0,): (0.08, 0.24, 0.19, 0.19, 0.09, 0.09, 0.12),
    (1,): (0.08, 0.16, 0.17, 0.18, 0.09, 0.09, 0.23),
    (0, 1): (0.08, 0.14, 0.16, 0.18, 0.09, 0.09, 0.08, 0.18),
}
_CURVE_MM = 160.0
_WORTH, _LONG = 3, 8  # letters that are worth leaving out, of marks longer than that


@dataclass(frozen=True, slots=True)
class PickedPanel:
    """One panel: its cells by their places, and what it will give, in words."""

    number: int
    cells: tuple[str, ...]
    gives: str
    alone: str
    mismatch: str  #: lost by cells that are not alike
    ribbon: str  #: lost in joints and leads
    own: str = ""  #: how far its watts may be off by its own cells' readings
    common: str = ""  #: and by what all readings have in common
    reaches: str = ""  #: the chance of what it counts for
    price: str = ""
    points: tuple[str, ...] = ("", "", "", "")  #: Isc, Voc, Imp, Vmp
    chart: Chart | None = None  #: its predicted curve


@dataclass(frozen=True, slots=True)
class Picks:
    """A deal as its papers tell it."""

    lot: str
    aim: str
    sentence: str
    compared: tuple[tuple[str, str, str], ...]  #: what, value, note
    panels: tuple[PickedPanel, ...]
    left: tuple[tuple[str, str], ...]  #: cell and why, the strongest first
    rest: tuple[str, ...]  #: left over too
    figures: Mapping[str, tuple[float, float]]  #: watts and current of each cell, behind the cover
    said: tuple[str, ...] = ()
    swaps: tuple[str, ...] = ()
    noted: Mapping[str, tuple[str, str]] = field(default_factory=dict)  #: grade and remark of each cell

    def notes(self, mark: str) -> tuple[str, str]:
        """Grade and remark of a cell; '' for none."""
        return self.noted.get(mark, ("", ""))

    def noting(self, marks: Sequence[str]) -> tuple[int, ...]:
        """Which of the two are written of any of these cells."""
        return tuple(k for k in range(len(_NOTED)) if any(self.notes(mark)[k] for mark in marks))


def pick_book(design: Design, picks: Picks) -> Book:
    """The list to follow at the bench."""
    pages = [_front(picks)]
    begin = beginning([mark for panel in picks.panels for mark in panel.cells])
    for panel in picks.panels:
        seen = [_seen(design, panel, side, begin) for side in _BOTH]
        pages += [*seen, _rows(design, picks, panel), *_curve(panel)]
    return _book(design, "Which cell goes where", pages)


def label_book(design: Design, picks: Picks) -> Book:
    """A label for each cell that is laid, panel by panel."""
    pages = []
    for panel in picks.panels:
        labels = [
            Label(mark, f"panel {panel.number}, place {place}", f"lot {picks.lot}")
            for place, mark in enumerate(panel.cells, 1)
        ]
        for drawn in label_figures(labels, design.order.job.paper):
            pages.append(Page(f"Labels for panel {panel.number}", (drawn,)))
    return _book(design, "Labels for cells", pages or [_front(picks)])


def _book(design: Design, title: str, pages: list[Page]) -> Book:
    job = design.order.job
    return Book(
        title, order_words(design), design.revision, job.paper, tuple(pages), job.units, stamp(design)
    )


def _front(picks: Picks) -> Page:
    """What it comes to, and what is left over."""
    blocks: list[Block] = [
        Words(picks.sentence, "lead"),
        Words(f"Lot {picks.lot}. Aim: {picks.aim}. Watts are in full sun at 25\u2009°C, behind the cover."),
        words_table(("Held against", "Comes to", "How far that is"), picks.compared),
    ]
    if picks.panels:
        blocks.append(_summary(picks))
    blocks += [Words(each) for each in (*picks.said, *picks.swaps)]
    if picks.left:
        blocks += [Heading("Left over"), words_table(("Cell", "Why"), picks.left)]
    if picks.rest:
        blocks.append(Words(f"And {', '.join(picks.rest)}.", "small"))
    return Page("What it comes to", tuple(blocks))


def _summary(picks: Picks) -> Table:
    columns = [(head, [getattr(each, name) for each in picks.panels]) for head, name in _SUMMED]
    shown = [(head, column) for head, column in columns if any(column)]
    rows = zip(*([each or "–" for each in column] for _, column in shown), strict=True)
    numbered = tuple((str(each.number), *row) for each, row in zip(picks.panels, rows, strict=True))
    heads = ("Panel", *(head for head, _ in shown))
    return words_table(heads, numbered, _LOST)


_LOST = "Mismatch: what cells lose by not being alike. Ribbon: what is lost in joints and leads."
_SUMMED = (
    ("Gives", "gives"),
    ("Own sd", "own"),
    ("Common sd", "common"),
    ("Reaches", "reaches"),
    ("Its cells alone", "alone"),
    ("Mismatch", "mismatch"),
    ("Ribbon", "ribbon"),
    ("Price", "price"),
)


def beginning(marks: Sequence[str]) -> str:
    """What all long marks begin with, so that a drawing may leave it out; '' where it is not worth it.

    >>> beginning(["LOT-2026-0017", "LOT-2026-0018"]), beginning(["B17", "B18"])
    ('LOT-2026-', '')
    """
    ends_of_order = zip(min(marks, default=""), max(marks, default=""), strict=False)
    same = "".join(a for a, _ in takewhile(lambda pair: pair[0] == pair[1], ends_of_order))
    same = same.rstrip("0123456789")
    return same if len(same) >= _WORTH and max(map(len, marks)) > _LONG else ""


def _seen(design: Design, panel: PickedPanel, seen: Seen, begin: str) -> Page:
    """A panel with its cells, as the bench or the sun sees it."""
    bench = seen == "behind"
    name = f"Panel {panel.number} {'on the bench' if bench else 'from the front'}"
    words = "Glass down, backs of the cells towards you: the mirror image. " if bench else ""
    title = title_of(
        design,
        name,
        material=f"{len(panel.cells)} cells of the lot, by their marks",
        tolerance="none: the lay-up has the sizes",
        side="from behind" if bench else "from the sun",
    )
    short = f" All marks begin with {begin}, which is left out here." if begin else ""
    told = f"{words}Each cell bears its mark; the small number is its place, 1 at the minus end.{short}"
    blocks: tuple[Block, ...] = (
        Words(told),
        seated_figure(design, ends(panel.cells, begin), seen),
        strip(design, title),
    )
    return Page(name, blocks, "sunny side down" if bench else "sunny side up")


def ends(cells: Sequence[str], begin: str) -> tuple[str, ...]:
    """Marks without what all begin with."""
    return tuple(mark.removeprefix(begin) or mark for mark in cells)


def seated_figure(design: Design, cells: tuple[str, ...], seen: Seen) -> Figure:
    """The lay-up with the cells' marks, as large as the page bears."""
    units = design.order.job.units
    room = page_room(design.order.job.paper, _WORDS_MM)
    return figure(partial(seated_drawing, design, cells, seen), room, "", units)


def seated_drawing(design: Design, cells: tuple[str, ...], seen: Seen, text_mm: float) -> Drawing:
    """The same as a drawing with words of that height."""
    view = View(dimensions=False, rim=rim(design.structural.frame), system=design.order.job.units)
    return seated_view(design.layup, dict(enumerate(cells, 1)), text_mm, seen=seen, view=view)


def _rows(design: Design, picks: Picks, panel: PickedPanel) -> Page:
    """A row a place, in the order in which they are laid, with a box to tick."""
    noting = picks.noting(panel.cells)
    rows = tuple(
        (
            str(at.number),
            at.mark,
            at.part_words,
            at.bench_words,
            *(f"{x:.3f}" for x in picks.figures[at.mark]),
            *(picks.notes(at.mark)[k] for k in noting),
        )
        for at in _places(design, panel)
    )
    heads = ("Place", "Cell", "String, diode", "On the bench", "Pmp, W", "Imp, A")
    align: tuple[Align, ...] = ("right", "left", "left", "left", "right", "right")
    noted = tuple(_NOTED[k] for k in noting)
    table = Table((*heads, *noted), rows, _SHARES[noting], (*align, *[_LEFT] * len(noting)), ticks=True)
    numbers = [
        ("gives", panel.gives),
        ("its cells alone", panel.alone),
        ("mismatch", panel.mismatch),
        ("ribbon, leads", panel.ribbon),
    ]
    numbers += [("reaches what it counts for", panel.reaches)] if panel.reaches else []
    numbers += [("price", panel.price)] if panel.price else []
    if panel.chart is None:  # else they stand beside the curve
        numbers += [each for each in zip(_KEYS, panel.points, strict=True) if each[1]]
    return Page(f"Panel {panel.number}, cell by cell", (Numbers(tuple(numbers)), table))


def _curve(panel: PickedPanel) -> Iterator[Page]:
    """Its curve as it is predicted, to lay beside the one that is measured."""
    if panel.chart is None:
        return
    numbers = Numbers(tuple(zip(_KEYS, panel.points, strict=True)))
    words = Words("In full sun at 25\u2009°C, behind the cover.")
    drawn = Figure(draw_chart(panel.chart, _CURVE_MM, _CURVE_MM * 0.6), 1.0, to_scale=False)
    yield Page(f"Panel {panel.number}, predicted curve", (words, numbers, drawn))


@dataclass(frozen=True, slots=True)
class _Place:
    """A place of a panel, and the cell that goes there; all counted from 1."""

    number: int
    mark: str
    string: int
    diode: int
    column: int  #: on the bench
    row: int

    @property
    def part_words(self) -> str:
        return f"string {self.string}, diode {self.diode}"

    @property
    def bench_words(self) -> str:
        return f"column {self.column}, row {self.row}"


def _places(design: Design, panel: PickedPanel) -> Iterator[_Place]:
    """Every place of a panel in the order in which it is laid."""
    layup, plan = design.layup, design.layup.plan
    for cell, mark in zip(layup.cells, panel.cells, strict=True):
        within = (cell.number - 1) % plan.in_series + 1
        part = next(n for n, end in enumerate(layup.diode_after[1:], 1) if within <= end)
        column, row = plan.columns - cell.column, plan.rows - cell.row
        yield _Place(cell.number, mark, cell.string + 1, part, column, row)


def pick_listings(design: Design, picks: Picks) -> tuple[Listing, ...]:
    """Cell by cell, panel by panel, by mark, and what is left over."""
    rows = [row for panel in picks.panels for row in _listed(design, picks, panel)]
    heads = (
        *(Column(name, kind="count") for name in ("panel", "place")),
        Column("cell"),
        *(Column(name, kind="count") for name in ("string", "diode")),
        *(Column(name, kind="count") for name in ("column on the bench", "row on the bench")),
        Column("Pmp", "W", "number"),
        Column("Imp", "A", "number"),
        *(Column(name.lower()) for name in _NOTED),
    )
    by_mark = tuple(sorted(((row[2], row[0], row[1]) for row in rows), key=str))
    marks = Column("cell"), Column("panel", kind="count"), Column("place", kind="count")
    return (
        Listing("picks", heads, tuple(rows)),
        Listing("by cell", marks, by_mark),
        _panels_listed(picks),
        Listing("left over", (Column("cell"), Column("why")), (*picks.left, *((m, "") for m in picks.rest))),
    )


def _listed(design: Design, picks: Picks, panel: PickedPanel) -> Iterator[tuple[Cell, ...]]:
    for at in _places(design, panel):
        figures = (float(f"{x:.5g}") for x in picks.figures[at.mark])
        yield (
            panel.number,
            at.number,
            at.mark,
            at.string,
            at.diode,
            at.column,
            at.row,
            *figures,
            *picks.notes(at.mark),
        )


def _panels_listed(picks: Picks) -> Listing:
    heads = tuple(Column(name) for name in ("panel", *(head.lower() for head, _ in _SUMMED), *_KEYS))
    rows = tuple(
        (str(each.number), *(getattr(each, name) for _, name in _SUMMED), *each.points)
        for each in picks.panels
    )
    return Listing("panels", heads, rows)
