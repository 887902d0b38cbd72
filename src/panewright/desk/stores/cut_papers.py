"""A cutting plan as papers and words: what the pages, the command and the printer show of it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from decimal import Decimal
from typing import TYPE_CHECKING

from panewright.desk.stores import cut_rows, cut_ticked
from panewright.desk.stores.racks import BOUGHT

if TYPE_CHECKING:
    from panewright.cutting.sheets.sheet_plan import SheetPlan
    from panewright.cutting.spools import SpoolPlan
    from panewright.desk.stores.cut_plan import Plan
    from panewright.desk.stores.cut_rows import Row
    from panewright.desk.stores.cutting import Kept
    from panewright.pack.pages.cut_sheets import CutSheets


def paper(number: int, plan: Plan, kind: str, marks: dict[int, tuple[str, ...]] | None = None) -> bytes:
    """'pdf' or 'csv'; the same plan gives the same bytes."""
    from panewright.pack.leaf import BookLeaf, CsvLeaf
    from panewright.pack.pages.cutting import cutting_book, cutting_listing
    from panewright.paper.leaf import render

    sheets = sheets_of(number, plan, marks or {})
    if kind == "pdf":
        return render(BookLeaf("cutting.pdf", cutting_book(sheets)))
    return render(CsvLeaf("cutting.csv", cutting_listing(sheets)))


def sheets_of(number: int, plan: Plan, marks: dict[int, tuple[str, ...]]) -> CutSheets:
    """A plan as its paper needs it."""
    from panewright.pack.pages.cut_sheets import CutPiece, CutRow, CutSheets
    from panewright.panel.revision import short_name
    from panewright.paper.record import json_bytes

    plastic = _plastics()
    rows = tuple(
        CutRow(
            row.number,
            row.source.item,
            place(row),
            tuple(CutPiece(p.order, p.name, p.length_mm, p.width_mm, p.count) for p in row.pieces),
            _marked(row, marks.get(row.number, ())),
            row.cut,
            row.source.key == BOUGHT,
            row.source.item in plastic,
        )
        for row in cut_rows.rows(plan)
    )
    return CutSheets(
        *(number, plan.orders, plan.units, plan.tools.saw, rows, said(plan), notes(plan), plan.currency),
        revision=short_name(json_bytes(plan).decode()),
        unproven=plan.unproven,
        revisions=dict(plan.revisions),
        inches=plan.inches,
    )


def _plastics() -> frozenset[str]:
    """Sheets of the shelf that are no glass."""
    from panewright.desk.own_shelf import own_shelf

    return frozenset(row.name for row in own_shelf().sheets if row.part.material != "glass")


def _marked(row: Row, marks: tuple[str, ...]) -> tuple[tuple[str, float, float | None], ...]:
    """Rests with their marks; a plan that is not in the records has none to give."""
    given = (*marks, *("" for _ in row.rests))
    return tuple((mark, *size) for mark, size in zip(given, row.rests, strict=False))


def marks_of(found: Kept) -> dict[int, tuple[str, ...]]:
    """The marks of all rests, by the rows' numbers."""
    return {row.number: cut_ticked.marks(found, row) for row in found.rows}


def place(row: Row) -> str:
    """Where a row's bar, sheet or spool lies."""
    if row.source.mark:
        return f"piece {row.source.mark}"
    return f"a {row.form} to buy" if row.source.key == BOUGHT else row.source.key


def said(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Of each part in words: how many, what it costs still, and how sure it is that nothing is better."""
    from panewright.pack.bench import count

    together = plan.together
    found = [
        (item, f"{count(len(cuts.bars), 'bar')}, {_buys(plan, item)}. {_sure(cuts.proven, cuts.gap)}")
        for item, cuts in together.bars
    ]
    found += [
        (
            item,
            f"{count(len(cuts.sheets), 'sheet')}{_sheets_to_buy(plan, item, cuts)}. "
            f"{_sure(cuts.proven, cuts.gap)}",
        )
        for item, cuts in together.sheets
    ]
    found += [
        (
            item,
            f"{count(len(cuts.spools), 'spool')}{_spools_to_buy(plan, cuts)}. {_sure(cuts.proven, cuts.gap)}",
        )
        for item, cuts in together.spools
    ]
    return tuple(found)


def _sheets_to_buy(plan: Plan, item: str, cuts: SheetPlan) -> str:
    """Whole sheets to buy, size by size, and their money."""
    from panewright.pack.pages.cutting import sides

    bought = [cut.sheet for cut in cuts.sheets if cut.sheet.name == BOUGHT]
    sizes = Counter((sheet.width_mm, sheet.height_mm) for sheet in bought)
    units = cut_rows.part_units(plan, item)
    told = " and ".join(
        f"{n} of {sides(long, wide, units)}" for (long, wide), n in sorted(sizes.items(), reverse=True)
    )
    return f", {told} to buy{_money(plan, [sheet.price for sheet in bought])}" if bought else ""


def _spools_to_buy(plan: Plan, cuts: SpoolPlan) -> str:
    bought = [cut.spool for cut in cuts.spools if cut.spool.name == BOUGHT]
    return (
        f", {len(bought)} of them to buy{_money(plan, [spool.price for spool in bought])}" if bought else ""
    )


def _money(plan: Plan, prices: Iterable[Decimal | None]) -> str:
    from panewright.price.money import amount

    cost = sum((price or Decimal(0) for price in prices), Decimal(0))
    return f" for {amount(cost, plan.currency)}" if cost else ""


_LITTLE = 0.001  #: of the cost


def _sure(proven: bool, gap: float) -> str:
    if proven:
        return "Proven: no other plan costs less."
    if gap:
        share = f"{gap:.1%}" if gap >= _LITTLE else f"{_LITTLE:.1%}"
        return f"Not proven: no plan costs less by more than {share}."
    return "Not proven: a plan that costs less may exist; the search ended before it was sure."


def _buys(plan: Plan, item: str) -> str:
    """Bars to buy and their money."""
    bought = [bar for bar in dict(plan.together.bars)[item].bars if bar.name in ("", BOUGHT)]
    if not bought:
        return "none to buy"
    return f"{len(bought)} of them to buy{_money(plan, [bar.price for bar in bought])}"


def notes(plan: Plan) -> tuple[str, ...]:
    """What is not in the plan, and why."""
    return (*plan.notes, *(each.why for each in plan.together.uncut))


def words(plan: Plan) -> str:
    """What a maker reads on the screen of a command."""
    from panewright.pack.pages.cut_list import list_lines, orders_words, unproven_words
    from panewright.pack.pages.cutting import left_words, sides

    sure, item, units = dict(said(plan)), "", plan.units
    lines = [*unproven_words(plan.unproven), *orders_words(plan.orders, dict(plan.revisions))]
    for row in cut_rows.rows(plan):
        if row.source.item != item:
            item = row.source.item
            units = cut_rows.part_units(plan, item)
            lines += ["", f"{item}: {sure[item]}"]
        cuts = ", ".join(
            f"{p.count} × {p.order} {p.name} {sides(p.length_mm, p.width_mm, plan.units_of(p.order))}"
            for p in row.pieces
        )
        lines.append(f"  {row.number}  {place(row)}: {cuts}")
        back = "; ".join(sides(long, wide, units) for long, wide in row.rests)
        lines.append(f"     goes back: {back}" if back else f"     {left_words(row.cut, units)}")
    if item:
        lines += ["", *list_lines(sheets_of(0, plan, {}))]
    else:
        lines.append("Nothing is to cut: every piece lies cut.")
    return "\n".join([*lines, "", *notes(plan)]).replace("\u2009", " ").strip() + "\n"
