"""Parcel or freight: how one panel of a size travels in its crate, as `crate` decides it, and its cost."""

from __future__ import annotations

from decimal import Decimal

from panewright.catalogue.row import Asked, Carried
from panewright.crate.amounts import amounts
from panewright.crate.ask import Ask, ask_of
from panewright.crate.crating import Way, ways
from panewright.crate.deciding import decided
from panewright.panel.design import Design
from panewright.price.offers.carriage import Carriage, carriage_of
from panewright.price.offers.quote import Priced, in_crates
from panewright.price.packing import Loads, packing_of

NO_WAY = "no carrier"


def travels(design: Design, asked: Asked, bare: Priced, sent: Ask | None = None) -> Carried:
    """One alone, by the carrier that takes its crate for least; `bare` is its price at the workshop.

    `sent` is what travels where that is no finished panel.
    """
    ask = sent or ask_of(design)
    found = ways(ask)
    told, taken = decided(ask, found), found[0].taken
    cost = sent_for(design, asked, bare, found[0])
    if taken is None:
        return Carried(NO_WAY, told.by, told.words, cost)
    return Carried(taken.carrier.kind, told.by, f"{taken.carrier.name} takes it; {told.words}", cost)


def sent_for(design: Design, asked: Asked, bare: Priced, way: Way) -> Decimal | None:
    """What crate and carriage add to the price of one panel, as a quote tells them; None where not known.

    That is where it is collected, and where the charge is to be asked.
    """
    order = design.order
    charge = carriage_of(order.money.terms, Carriage("carriage", _charge(design, way)))
    if order.crate.by == "collected" or charge is None or charge.cost is None:
        return None
    loads = Loads(way.crates, order.job.panels, way.shell)
    taken = amounts(way.crate, way.crates, order.crate.wood)
    packed = packing_of(taken, asked.shelf, loads, order.job.units)
    return in_crates(bare, design, packed, asked.actuals).each - bare.each + charge.cost


def _charge(design: Design, way: Way) -> Decimal | None:
    """Of the carrier, in the order's own currency."""
    home = way.taken is not None and way.taken.carrier.currency == design.order.job.currency
    return way.price if home else None
