"""From the crate to the price: its wood, foam and screws as parts, its making as work."""

from __future__ import annotations

from panewright.crate.amounts import amounts
from panewright.crate.crated import crated
from panewright.pack.sent import asked
from panewright.panel.design import Design
from panewright.price.offers.quote import priced
from panewright.price.packing import Loads, Packing, packing_of
from panewright.shelf.shelf import Shelf


def packing(design: Design, shelf: Shelf) -> Packing:
    """What the crates of an order take, of panels or of kits; nothing where they are collected."""
    job, order = design.order.job, design.order
    if order.crate.by == "collected":
        return Packing()
    lines = priced(design, shelf).lines if order.kit.is_kit else ()
    found = crated(asked(design, lines))
    sent = Loads(found.crates, job.panels, found.shell)
    return packing_of(amounts(found.crate, found.crates, found.wood), shelf, sent, job.units)
