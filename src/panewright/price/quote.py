"""What the order costs and is sold for.

    parts      what the order buys, line by line, each line rounded to cents
    labour     hours of all steps times the shop's rate
    overhead   the order's share on top of parts and labour
    margin     the order's share on top of all three
    each       their sum over the number of panels, rounded half up to cents
    order      each times the number of panels, so that an invoice adds up

A part that is not on the shelf has no price; it is left out of the sum, and the quote says so.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

from panewright.cutting.plan import CutPlan
from panewright.drawing.listing import Listing
from panewright.panel.design import Design
from panewright.price.actuals import Actuals, rates
from panewright.price.actuals import notes as notes_of
from panewright.price.bill import Line, bill, total
from panewright.price.cuts import rail_cuts
from panewright.price.hours import RATES, Work, hours, hours_by_step
from panewright.price.kit import in_boxes, left, work_of_customer, work_of_shop
from panewright.price.lists import listings
from panewright.price.money import cents, exact
from panewright.price.needs import cells_bought, counts, needs
from panewright.price.packing import Packing
from panewright.shelf.shelf import Shelf


@dataclass(frozen=True, slots=True)
class Sum:
    """From parts to price, for one number of panels."""

    parts: Decimal
    labour: Decimal
    overhead: Decimal
    margin: Decimal

    @property
    def price(self) -> Decimal:
        """All four together."""
        return self.parts + self.labour + self.overhead + self.margin


@dataclass(frozen=True, slots=True)
class Quote:
    """Parts, work and price of one order."""

    currency: str
    panels: int
    cells_bought: int  #: for the whole order, spares counted
    lines: tuple[Line, ...]
    work: tuple[Work, ...]
    hours: Decimal  #: for the whole order
    parts: Decimal  #: and these four likewise
    labour: Decimal
    overhead: Decimal
    margin: Decimal
    price_each: Decimal
    price_order: Decimal
    price_per_watt: Decimal
    unpriced: int  #: lines without a price
    notes: tuple[str, ...]
    cuts: CutPlan | None  #: all rails of all panels; None where a rail is longer than its bar
    listings: tuple[Listing, ...]  #: parts, cuts, glass, ribbon, work
    brought: tuple[Line, ...] = ()  #: what the customer brings; in no sum
    customer_work: tuple[Work, ...] = ()  #: what the builder of a kit does, over the whole order; in no sum


def quote(
    design: Design, shelf: Shelf, actuals: Actuals | None = None, packed: Packing | None = None
) -> Quote:
    """The price of an order with every part, cut and hour in it.

    `actuals` are the shop's own figures, `packed` is what its crates take.
    """
    sent = packed or Packing()
    job, panels = design.order.job, design.order.job.panels
    cuts = rail_cuts(design, panels)
    kit = design.order.kit
    asked, theirs = left(needs(design, shelf, cuts, actuals), kit)
    lines = bill((*in_boxes(asked, kit, panels), *sent.needs), panels)
    counted, paces = counts(design), rates(actuals) if actuals else RATES
    work = hours_by_step({**work_of_shop(counted, kit), **sent.counts}, paces)
    spent = hours(work)
    money = add_up(total(lines), spent, design)
    each = cents(money.price / panels)
    unpriced = sum(line.price is None for line in lines)
    return Quote(
        currency=job.currency,
        panels=panels,
        cells_bought=cells_bought(design, shelf, actuals),
        lines=lines,
        work=work,
        hours=spent,
        parts=money.parts,
        labour=money.labour,
        overhead=money.overhead,
        margin=money.margin,
        price_each=each,
        price_order=each * panels,
        price_per_watt=per_watt(each, design.label.pmp_w),
        unpriced=unpriced,
        notes=(*notes(unpriced, job.currency, shelf.currency, cuts), *notes_of(actuals)),
        cuts=cuts,
        listings=listings(design, lines, cuts, work, job.currency),
        brought=bill(tuple(replace(need, price=None) for need in theirs), panels),
        customer_work=hours_by_step(work_of_customer(counted, kit), paces),
    )


def add_up(parts: Decimal, spent: Decimal, design: Design) -> Sum:
    """Labour, overhead and margin on top of the parts, each rounded to cents."""
    money = design.order.money
    labour = cents(spent * money.labour_per_hour)
    overhead = cents((parts + labour) * money.overhead)
    return Sum(parts, labour, overhead, cents((parts + labour + overhead) * money.margin))


def per_watt(each: Decimal, pmp_w: float) -> Decimal:
    """Price of one panel over its watts, to cents; 0 where there are no watts.

    >>> per_watt(Decimal("150.00"), 100.0)
    Decimal('1.50')
    """
    return cents(each / exact(pmp_w)) if pmp_w > 0 else Decimal(0)


def notes(unpriced: int, asked: str, kept: str, cuts: CutPlan | None) -> list[str]:
    """What a reader of the price must know."""
    told = []
    if unpriced == 1:
        told.append("One part is not on the shelf: its price is not in the sum.")
    if unpriced > 1:
        told.append(f"{unpriced} parts are not on the shelf: their prices are not in the sum.")
    if asked != kept:
        told.append(
            f"The shelf's prices are in {kept}; the order is in {asked} and was reckoned one to one. "
            f"Keep a shelf in {asked}, or quote in {kept}."
        )
    if cuts is None:
        told.append("A rail is longer than the bar it is cut from: no cut list is possible.")
    return told
