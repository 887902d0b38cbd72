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
from panewright.price.bill import Line, Need, bill, total
from panewright.price.cuts import rail_cuts
from panewright.price.hours import RATES, Count, Work, hours, hours_by_step
from panewright.price.kit import in_boxes, left, work_of_customer, work_of_shop
from panewright.price.lists import listings
from panewright.price.money import cents, exact
from panewright.price.needs import counts, needs
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


NOTHING = Sum(*(Decimal(0),) * 4)


@dataclass(frozen=True, slots=True)
class Quote:
    """Parts, work and price of one order."""

    currency: str
    panels: int
    cells_bought: int  #: for the whole order or all its boxes, spares counted
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
    crates: int = 0  #: whose wood or board, foam and screws are among the lines
    shell: str = "crate"  #: or a carton

    @property
    def without_price(self) -> tuple[str, ...]:
        """Names of the parts that are in no sum, as the shelf has no price of them."""
        return tuple(line.name for line in self.lines if line.price is None)

    @property
    def goods(self) -> str:
        """What one price is for: 'panel', or 'kit' where somebody else builds it."""
        return "kit" if self.customer_work else "panel"


@dataclass(frozen=True, slots=True)
class Priced:
    """What the price alone hangs on, without the lists that only pages show."""

    lines: tuple[Line, ...]
    theirs: tuple[Need, ...]  #: what the customer brings
    counted: dict[Count, Decimal]
    work: tuple[Work, ...]
    cuts: CutPlan | None
    hours: Decimal = Decimal(0)
    money: Sum = NOTHING
    each: Decimal = Decimal(0)
    per_watt: Decimal = Decimal(0)

    @property
    def unpriced(self) -> int:
        """Lines without a price."""
        return sum(line.price is None for line in self.lines)


def priced(
    design: Design, shelf: Shelf, actuals: Actuals | None = None, packed: Packing | None = None
) -> Priced:
    """The price of an order; see `quote`."""
    panels, kit = design.order.job.panels, design.order.kit
    cuts = rail_cuts(design, panels)
    asked, theirs = left(needs(design, shelf, cuts, actuals), kit)
    lines, counted = bill(in_boxes(asked, kit, panels), panels), counts(design)
    work = hours_by_step(work_of_shop(counted, kit), rates(actuals) if actuals else RATES)
    bare = _summed(Priced(lines, tuple(theirs), counted, work, cuts), design)
    return in_crates(bare, design, packed, actuals) if packed else bare


def in_crates(bare: Priced, design: Design, packed: Packing, actuals: Actuals | None = None) -> Priced:
    """A price at the workshop with what the order's crates take."""
    job, paces = design.order.job, rates(actuals) if actuals else RATES
    done = work_of_shop(bare.counted, design.order.kit)
    lines = (*bare.lines, *bill(packed.needs, job.panels))
    work = hours_by_step({**done, **packed.counts}, paces)
    return _summed(replace(bare, lines=lines, work=work), design)


def _summed(made: Priced, design: Design) -> Priced:
    """Lines and work added up."""
    spent = hours(made.work)
    money = add_up(total(made.lines), spent, design)
    each = cents(money.price / design.order.job.panels)
    watt = per_watt(each, design.label.pmp_w)
    return replace(made, hours=spent, money=money, each=each, per_watt=watt)


def _cells(lines: tuple[Line, ...]) -> int:
    """What shop or customer buys: a kit's box holds its own spares, so boxes take more than one order."""
    return sum(int(line.buy) for line in lines if line.use == "cell")


def quote(
    design: Design, shelf: Shelf, actuals: Actuals | None = None, packed: Packing | None = None
) -> Quote:
    """The price of an order with every part, cut and hour in it.

    `actuals` are the shop's own figures, `packed` is what its crates take.
    """
    made, job, kit = priced(design, shelf, actuals, packed), design.order.job, design.order.kit
    money, paces = made.money, rates(actuals) if actuals else RATES
    told = notes(made.unpriced, job.currency, shelf.currency, made.cuts)
    brought = bill(tuple(replace(need, price=None) for need in made.theirs), job.panels)
    return Quote(
        currency=job.currency,
        panels=job.panels,
        cells_bought=_cells((*made.lines, *brought)),
        lines=made.lines,
        work=made.work,
        hours=made.hours,
        parts=money.parts,
        labour=money.labour,
        overhead=money.overhead,
        margin=money.margin,
        price_each=made.each,
        price_order=made.each * job.panels,
        price_per_watt=made.per_watt,
        unpriced=made.unpriced,
        notes=(*told, *notes_of(actuals)),
        cuts=made.cuts,
        listings=listings(design, made.lines, made.cuts, made.work, job.currency),
        brought=brought,
        customer_work=hours_by_step(work_of_customer(made.counted, kit), paces),
        crates=packed.crates if packed else 0,
        shell=packed.shell if packed else "crate",
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
