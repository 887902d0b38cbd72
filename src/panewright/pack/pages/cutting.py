"""A cutting plan across orders on paper: bars and sheets as pictures, every cut in a table."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Literal

from panewright.cutting.plan import BarCut
from panewright.cutting.sheets.sheet_plan import SheetCut
from panewright.cutting.spools import SpoolCut
from panewright.drawing.listing import Cell, Column, Listing
from panewright.drawing.sheet import Block, Book, Caution, Heading, Page, Table, Words
from panewright.pack.bench import count, sawn_mm, told
from panewright.pack.figures.bars import rows_figure
from panewright.pack.figures.sheets import sheet_figure
from panewright.pack.heading import NOT_PROVEN
from panewright.pack.pages import caution
from panewright.pack.pages.cut_list import list_page, part_name, unproven_words
from panewright.pack.pages.cut_sheets import CutRow, CutSheets
from panewright.pack.pages.table import words_table
from panewright.units import INCH_MM, MM, show

_A_FIGURE = 18  #: bars in one picture


def cutting_book(plan: CutSheets) -> Book:
    """What it takes in all, then a page, or more, for each part; what is not cut stands on the last."""
    pages = [list_page(plan)] if plan.rows else []
    pages += [_page(plan, item, tuple(rows)) for item, rows in groupby(plan.rows, key=lambda row: row.item)]
    if plan.notes:
        pages.append(Page("Not in this plan", tuple(Words(note) for note in plan.notes)))
    paper: Literal["A4", "Letter"] = "Letter" if plan.units == "us" else "A4"
    orders = f"for {count(len(plan.orders), 'order')}: {', '.join(plan.orders)}"
    empty = Page("Nothing to cut", (Words("Every piece of these orders lies cut."),))
    book_pages = tuple(pages) or (empty,)
    name = f"plan {plan.number}, {plan.revision}" if plan.number else plan.revision
    stamp = NOT_PROVEN if plan.unproven else ""
    return Book("Cutting plan", orders, name, paper, book_pages, plan.units, stamp)


def _page(plan: CutSheets, item: str, rows: tuple[CutRow, ...]) -> Page:
    said = dict(plan.said)
    blocks: list[Block] = [Words(said.get(item, ""), "lead")]
    mine = {piece.order for row in rows for piece in row.pieces}
    failing = tuple(number for number in plan.unproven if number in mine)
    blocks += [Words(words) for words in unproven_words(failing)]
    if any(isinstance(row.cut, BarCut | SheetCut) for row in rows):
        blocks.append(caution_of(rows))
    blocks += _pictures(plan, rows)
    blocks += [Heading("Cut by cut"), _table(plan, rows)]
    return Page(part_name(rows[0]), tuple(blocks))


def caution_of(rows: Sequence[CutRow]) -> Block:
    """Of the saw's chips, of plastic, or of the glass."""
    if any(isinstance(row.cut, BarCut) for row in rows):
        return Caution(caution.CHIPS, close=True)
    plastic = any(row.plastic for row in rows)
    return Caution(caution.PLASTIC if plastic else caution.GLASS_EDGE, close=True)


def _pictures(plan: CutSheets, rows: Sequence[CutRow]) -> Iterator[Block]:
    units = plan.part_units(rows[0].item)
    bars = [(row.number, row.cut) for row in rows if isinstance(row.cut, BarCut)]
    for at in range(0, len(bars), _A_FIGURE):
        yield rows_figure(bars[at : at + _A_FIGURE], plan.saw, units)
    for row in rows:
        if isinstance(row.cut, SheetCut):
            yield Heading(f"{row.number}: {row.place}")
            yield sheet_figure(row.cut, 1, units)
            yield steps_table(row.cut, units)


def steps_table(cut: SheetCut, units: str, head: str = "Cut") -> Table:
    """Every cut of a sheet in its order, with a box to tick; a picture may lack numbers for want of room."""
    said = step_words(cut, units)
    steps = tuple((f"{step.number}", words, "☐") for step, words in zip(cut.steps, said, strict=True))
    return words_table((head, "What to do", "Done"), steps)


def step_words(cut: SheetCut, units: str) -> tuple[str, ...]:
    """Every cut of a sheet as a sentence, in the plan's units."""
    return tuple(step.told(told(sawn_mm(step.at_mm), units)) for step in cut.steps)


def _table(plan: CutSheets, rows: Sequence[CutRow]) -> Table:
    lines = tuple(
        (
            f"{row.number}" if n == 0 else "",
            row.place if n == 0 else "",
            f"{piece.count} × {piece.name}",
            sides(piece.length_mm, piece.width_mm, plan.units_of(piece.order)),
            " ".join(filter(None, (piece.order, plan.revisions.get(piece.order)))),
            _rests(row, plan.part_units(row.item)) if n == len(row.pieces) - 1 else "",
        )
        for row in rows
        for n, piece in enumerate(row.pieces)
    )
    return words_table(("No", "From", "Cut", "Length", "Order, revision", "Goes back, with its mark"), lines)


def _rests(row: CutRow, units: str) -> str:
    marked = "; ".join(f"{mark} {sides(long, wide, units)}".strip() for mark, long, wide in row.rests)
    return marked or left_words(row.cut, units)


def left_words(cut: BarCut | SheetCut | SpoolCut, units: str) -> str:
    """What becomes of the rest of one of which no piece goes back with a mark of its own."""
    if isinstance(cut, SpoolCut):
        return f"{show(cut.left_mm * MM, 'm', units)} stays on it" if cut.left_mm else "nothing stays on it"
    if isinstance(cut, BarCut):
        return f"{sides(cut.remnant_mm, None, units)} is thrown away"
    return "nothing of it is kept"


def sides(length_mm: float, width_mm: float | None, units: str) -> str:
    """A length, or a length and a width.

    >>> sides(840.0, None, "metric").replace("\\u2009", " ")
    '840 mm'
    """
    long = told(round(length_mm, 2), units)
    return long if width_mm is None else f"{long} × {told(round(width_mm, 2), units)}"


def cutting_listing(plan: CutSheets) -> Listing:
    """Every piece of every bar, sheet and spool, in the order in which to cut; numbers stay numbers."""
    inches = plan.units == "us" or bool(plan.inches)
    columns = [Column("No", "", "count"), Column("Part"), Column("From"), Column("Order")]
    columns += [Column("Revision"), Column("Piece")]
    columns += [
        Column("Pieces", "", "count"),
        Column("Length", "mm", "number"),
        Column("Width", "mm", "number"),
    ]
    columns += [Column("Length", "in", "number")] * inches + [Column("Goes back"), Column("Proven")]
    rows = tuple(_line(row, n, plan) for row in plan.rows for n in range(len(row.pieces)))
    return Listing(f"Cutting plan {plan.number}", tuple(columns), rows)


def _line(row: CutRow, n: int, plan: CutSheets) -> tuple[Cell, ...]:
    piece, units = row.pieces[n], plan.part_units(row.item)
    inch = round(piece.length_mm / INCH_MM, 4) if plan.units_of(piece.order) == "us" else None
    inches: list[Cell] = [inch] if plan.units == "us" or plan.inches else []
    wide = None if piece.width_mm is None else round(piece.width_mm, 2)
    back = _rests(row, units).replace("\u2009", " ") if n == len(row.pieces) - 1 else None
    whose = (piece.order, plan.revisions.get(piece.order, ""))
    told_: list[Cell] = [row.number, row.item, row.place, *whose, piece.name, piece.count]
    proven = "no" if piece.order in plan.unproven else "yes"
    return (*told_, round(piece.length_mm, 2), wide, *inches, back, proven)
