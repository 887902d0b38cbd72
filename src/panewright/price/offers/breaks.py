"""The same panel in other numbers: each number priced as an order of its own.

Nothing is scaled. Bars are cut, cells counted for breakage, batches and cartridges rounded up, crates chosen,
and what is paid once an order is shared out, for each number afresh.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from decimal import Decimal

from panewright.panel.design import Design
from panewright.price.actuals import Actuals
from panewright.price.offers.quote import Quote, quote
from panewright.price.packing import Packing
from panewright.shelf.shelf import Shelf


@dataclass(frozen=True, slots=True)
class Break:
    """One number of panels and its price."""

    panels: int
    each: Decimal  #: without tax
    order: Decimal
    per_watt: Decimal
    hours_each: Decimal
    bars: int | None
    cells: int  #: to buy, spares with them


Packs = Callable[[Design, Shelf], Packing]  #: who reckons what the crates of an order take


def not_packed(_design: Design, _shelf: Shelf) -> Packing:
    """Nothing is crated."""
    return Packing()


def breaks(
    design: Design, shelf: Shelf, made: Quote, actuals: Actuals | None = None, *, packs: Packs = not_packed
) -> tuple[Break, ...]:
    """Every number that the order asks to see, and its own; `made` is the quote of its own."""
    asked = sorted({*design.order.money.terms.breaks, made.panels})
    others = (in_number(design, panels) for panels in asked if panels != made.panels)
    found = [made, *(quote(other, shelf, actuals, packs(other, shelf)) for other in others)]
    return tuple(of_quote(each) for each in sorted(found, key=lambda each: each.panels))


def in_number(design: Design, panels: int) -> Design:
    """The same design for so many panels."""
    job = replace(design.order.job, panels=panels)
    return replace(design, order=replace(design.order, job=job))


def of_quote(made: Quote) -> Break:
    """A quote as one line of the breaks."""
    return Break(
        made.panels,
        made.price_each,
        made.price_order,
        made.price_per_watt,
        (made.hours / made.panels).quantize(Decimal("0.1")),
        len(made.cuts.bars) if made.cuts else None,
        made.cells_bought,
    )
