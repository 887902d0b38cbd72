"""The lists a workshop buys and cuts from; numbers stay numbers.

Lengths stand in mm; an order in US customary units gets a second column in inches, decimal, because lists
go to programs. The book sets the same lengths as fractions.
"""

from __future__ import annotations

from collections.abc import Iterator

from panewright.cutting.plan import CutPlan
from panewright.drawing.listing import Cell, Column, Listing
from panewright.layup.lengths import RibbonPiece, bus_pieces, tab_pieces
from panewright.panel.design import Design
from panewright.price.bill import Line
from panewright.price.hours import Work
from panewright.structure.panes.cut_glass import HEATED
from panewright.units import INCH_MM


def listings(
    design: Design, lines: tuple[Line, ...], cuts: CutPlan | None, work: tuple[Work, ...], currency: str
) -> tuple[Listing, ...]:
    """Parts, cut list, glass, ribbon and hours of one order."""
    return (
        parts_listing(lines, currency),
        cuts_listing(cuts, design),
        glass_listing(design),
        ribbon_listing(design),
        hours_listing(work),
    )


def parts_listing(lines: tuple[Line, ...], currency: str) -> Listing:
    """What to buy for the whole order."""
    columns = (
        Column("Group"),
        Column("Part"),
        Column("Size"),
        Column("One panel takes", "", "number"),
        Column("One crate takes", "", "number"),
        Column("Lost", "%", "number"),
        Column("Buy for the order", "", "number"),
        Column("Sold by"),
        Column("Price", currency, "money"),
        Column("Cost", currency, "money"),
        Column("Mass in one panel", "kg", "number"),
        Column("Source"),
    )
    return Listing("Parts", columns, tuple(_part_row(line) for line in lines))


def _part_row(line: Line) -> tuple[Cell, ...]:
    lost = round(line.waste * 100, 1)
    return (
        line.group,
        line.name,
        line.size,
        line.one if line.per_crate is None else None,
        line.per_crate,
        lost.normalize() + 0,
        line.buy,
        line.sold_by,
        line.price,
        line.cost,
        _mass(line.mass_kg),
        line.source,
    )


def _mass(mass_kg: float) -> float | None:
    """To a tenth of a gram, finer under a gram; what no panel's mass counts is not told as nothing. [kg]"""
    return round(mass_kg, 4 if mass_kg >= 0.001 else 6) or None


def cuts_listing(cuts: CutPlan | None, design: Design) -> Listing:
    """Every cut of every bar, in the order in which to saw; bar 1 first."""
    inches = design.order.job.units == "us"
    columns = [Column("Bar", "", "count"), Column("Cut", "", "count"), Column("Piece")]
    columns += [Column("Length", "mm", "number")] + [Column("Length", "in", "number")] * inches
    columns += [Column("Left on the bar", "mm", "number"), Column("Rail")]
    rows = tuple(_cut_rows(cuts, design.structural.rail.name, inches)) if cuts else ()
    return Listing("Cut list", tuple(columns), rows)


def _cut_rows(cuts: CutPlan, rail: str, inches: bool) -> Iterator[tuple[Cell, ...]]:
    for number, bar in enumerate(cuts.bars, start=1):
        for place, piece in enumerate(bar.pieces, start=1):
            left = round(bar.remnant_mm, 1) if place == len(bar.pieces) else None
            length: list[Cell] = [round(piece.length_mm, 2)]
            length += [round(piece.length_mm / INCH_MM, 4)] * inches
            yield (number, place, piece.name, *length, left, rail)


def glass_listing(design: Design) -> Listing:
    """Panes to order."""
    pane = design.structural.pane
    columns = (
        Column("Pane"),
        Column("Long side", "mm", "number"),
        Column("Short side", "mm", "number"),
        Column("Thickness", "mm", "number"),
        Column("Panes", "", "count"),
        Column("Order so"),
    )
    say = "edges ground, corners dubbed; state the tolerance of sides and diagonals"
    if pane.sheet.treatment in HEATED:
        say += f"; to this size, {pane.sheet.treatment} glass is never cut or drilled afterwards"
    row = (
        pane.sheet.name,
        round(pane.long_mm, 1),
        round(pane.short_mm, 1),
        pane.sheet.nominal_mm,
        design.order.job.panels,
        say,
    )
    return Listing("Glass", columns, (row,))


def ribbon_listing(design: Design) -> Listing:
    """Ribbon pieces of one panel and of the order."""
    panels = design.order.job.panels
    names = {"tab": design.electrical.tab.name, "bus": design.electrical.bus.name}
    columns = (
        Column("Ribbon"),
        Column("Piece"),
        Column("Length", "mm", "number"),
        Column("One panel", "", "count"),
        Column("Order", "", "count"),
        Column("On a front", "mm", "number"),
        Column("On a back", "mm", "number"),
        Column("Bends", "", "count"),
    )
    pieces = (*tab_pieces(design.layup), *bus_pieces(design.layup))
    return Listing("Ribbon", columns, tuple(_ribbon_row(piece, names[piece.use], panels) for piece in pieces))


def _ribbon_row(piece: RibbonPiece, ribbon: str, panels: int) -> tuple[Cell, ...]:
    return (
        ribbon,
        piece.name,
        round(piece.length_mm, 1),
        piece.quantity,
        piece.quantity * panels,
        round(piece.front_mm, 1),
        round(piece.back_mm, 1),
        piece.steps,
    )


def hours_listing(work: tuple[Work, ...]) -> Listing:
    """Minutes by step over the order, with the rate and its source."""
    columns = (
        Column("Step"),
        Column("Count", "", "number"),
        Column("Of"),
        Column("Each", "min", "number"),
        Column("Time", "min", "number"),
        Column("Source of the rate"),
    )
    rows = tuple(
        (step.step, step.count, step.per, step.each_minutes, step.minutes, step.source) for step in work
    )
    return Listing("Hours", columns, rows)
