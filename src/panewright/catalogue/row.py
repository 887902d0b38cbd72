"""One size of a catalogue: designed and priced as the order that it is, and told in one row.

Figures are rounded to what is printed, so that the last digits of another machine's arithmetic are no
difference between two catalogues.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import lru_cache

from panewright.catalogue.family import Member
from panewright.check import Check
from panewright.errors import OrderError
from panewright.glass.pane import Sheet
from panewright.order.parse import parse_order
from panewright.panel.choose import design_briefly
from panewright.panel.design import Design
from panewright.price.actuals import Actuals
from panewright.price.offers.breaks import in_number
from panewright.price.offers.quote import Priced, priced
from panewright.shelf.shelf import Shelf
from panewright.structure.panes.safe_wind import calm, safe_speed_m_s
from panewright.units import against

CUTS = {1: "whole", 2: "half", 3: "third"}


@dataclass(frozen=True, slots=True)
class Carried:
    """How one panel travels, and why."""

    way: str  #: parcel or freight
    by: str = ""  #: what decides, in a word: length, girth, mass, lifting, price ...
    why: str = ""  #: the same with its figures
    cost: Decimal | None = None  #: of crate and carriage; None where nobody knows


@dataclass(frozen=True, slots=True)
class Figures:
    """What a size is and gives; at STC."""

    long_mm: float  #: outside of the frame
    short_mm: float
    deep_mm: float  #: of the rail
    pmp_w: float
    vmp_v: float
    imp_a: float
    voc_v: float
    isc_a: float
    mass_kg: float
    safe_wind_m_s: float | None  #: that the pane bears; None where the code's glass rules do not cover it
    rail: str
    glass_mm: float  #: as it is sold
    glass_kind: str  #: what its strength hangs on beside its thickness
    prices: tuple[Decimal, ...]  #: of one panel, for each quantity
    per_watt: Decimal  #: at the first quantity
    unpriced: int  #: parts whose price is not in it
    carried: Carried | None


@dataclass(frozen=True, slots=True)
class Row:
    """One size: what it is made of, its figures, and the worst check that fails."""

    cell: str
    cut: str
    columns: int
    rows: int
    glass: str
    figures: Figures | None  #: None where the order of this size is refused
    holds: bool
    fails: str = ""  #: the worst failing rule with its figures, or why the order is refused
    cure: str = ""

    @property
    def cells(self) -> int:
        """Cells of the panel."""
        return self.columns * self.rows


#: who decides, of one panel and its price at the workshop; a function of a module, as processes hand it on
Carriage = Callable[[Design, "Asked", Priced], Carried | None]


def not_asked(_design: Design, _asked: Asked, _bare: Priced) -> Carried | None:
    """Nobody decides how it travels."""
    return None


@dataclass(frozen=True, slots=True)
class Asked:
    """What each size is asked for."""

    shelf: Shelf
    quantities: tuple[int, ...]
    carriage: Carriage = not_asked
    actuals: Actuals | None = None  #: the shop's own pace and breakage
    many: bool = False  #: so many sizes that what takes a second to load pays


def row_of(member: Member, text: str, asked: Asked) -> Row:
    """The row of one size's order. Same order and shelf, same row, wherever it is reckoned."""
    try:
        order = parse_order(text, "", asked.shelf)
        asked = replace(asked, shelf=only_its_sheet(order.parts.sheet, asked.shelf))
        design = design_briefly(order, asked.shelf)
    except OrderError as mistake:
        told = mistake.problems[0]
        return replace(_unlike(member), fails=told.reason, cure=told.cure)
    worst = worst_failing(design.checks)
    row = Row(
        order.cell.name,
        CUTS[order.cell.parts],
        member.columns,
        member.rows,
        design.structural.pane.sheet.name,
        _figures(design, asked),
        holds=worst is None,
    )
    if worst is None:
        return row
    return replace(row, fails=in_words(worst, order.job.units), cure=worst.cure)


def _unlike(member: Member) -> Row:
    """A size whose order is refused, by what the range says of it."""
    said = member.cell or "", member.cut or CUTS[1]
    return Row(*said, member.columns, member.rows, member.glass or "", None, holds=False)


@lru_cache(maxsize=32)
def only_its_sheet(sheet: Sheet | None, shelf: Shelf) -> Shelf:
    """The shelf without other sheets than the order's own: they would be weighed and not be taken.

    Kept, for one and the same shelf is soon found again in what else is kept.
    """
    kept = tuple(row for row in shelf.sheets if row.part == sheet)
    return replace(shelf, sheets=kept) if kept else shelf


def worst_failing(checks: tuple[Check, ...]) -> Check | None:
    """The failing check farthest past its limit, one without a limit before all; None where all hold."""
    failing = (check for check in checks if not check.passed)
    return min(failing, key=lambda check: (-check.utilisation, check.rule), default=None)


def in_words(check: Check, units: str) -> str:
    """A failing check in words: 'glass strength in wind: 58 MPa of 44 MPa'."""
    if check.limit is None:
        return f"{check.rule}: not covered ({check.source})"
    demand, limit = against(check.demand, check.limit, check.unit, units)
    if math.isnan(check.demand):
        demand = "past what is known"
    return f"{check.rule}: {demand} of {limit}"


def _figures(design: Design, asked: Asked) -> Figures:
    label, frame, held = design.label, design.structural.frame, design.structural
    sheet = held.pane.sheet
    made = [_priced(design, panels, asked) for panels in asked.quantities]
    sides = sorted((frame.outer_width_mm, frame.outer_height_mm))
    return Figures(
        long_mm=round(sides[1], 1),
        short_mm=round(sides[0], 1),
        deep_mm=round(held.rail.upright_mm, 1),
        pmp_w=round(label.pmp_w, 1),
        vmp_v=round(label.vmp_v, 2),
        imp_a=round(label.imp_a, 2),
        voc_v=round(label.voc_v, 2),
        isc_a=round(label.isc_a, 2),
        mass_kg=round(label.mass_kg, 2),
        safe_wind_m_s=_safe_wind(design),
        rail=held.rail.name,
        glass_mm=sheet.nominal_mm,
        glass_kind=f"{sheet.surface} {sheet.treatment if sheet.material == 'glass' else sheet.material}",
        prices=tuple(each.each for each in made),
        per_watt=made[0].per_watt,
        unpriced=made[0].unpriced,
        carried=_carried(design, asked, made),
    )


def _priced(design: Design, panels: int, asked: Asked) -> Priced:
    """What an order of so many costs at the workshop."""
    return priced(in_number(design, panels), asked.shelf, asked.actuals)


def _carried(design: Design, asked: Asked, made: list[Priced]) -> Carried | None:
    """How one panel alone travels, whatever the quantities are."""
    if asked.carriage is not_asked:
        return None
    known = dict(zip(asked.quantities, made, strict=True))
    return asked.carriage(in_number(design, 1), asked, known.get(1) or _priced(design, 1, asked))


def _safe_wind(design: Design) -> float | None:
    """Wind that the pane bears by the order's own family, as the safe-wind page tells it. [m/s]"""
    pane, sides = design.structural.pane, design.order.parts.held
    speed = safe_speed_m_s(pane, calm(design.order.site), sides=sides)
    return round(speed, 1) if speed > 0 else None
