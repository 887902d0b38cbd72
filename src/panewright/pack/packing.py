"""From the crate to the price: its wood, foam and screws as parts, its making as work."""

from __future__ import annotations

from collections.abc import Iterator

from panewright.crate.amounts import amounts, screws
from panewright.crate.crated import Crated, crated
from panewright.pack.sent import asked
from panewright.panel.design import Design
from panewright.price.offers.quote import priced
from panewright.price.packing import Loads, Material, Packing, packing_counts, packing_needs
from panewright.shelf.shelf import Shelf


def packing(design: Design, shelf: Shelf) -> Packing:
    """What the crates of an order take, of panels or of kits; nothing where they are collected."""
    job, order = design.order.job, design.order
    if order.crate.by == "collected":
        return Packing()
    lines = priced(design, shelf).lines if order.kit.is_kit else ()
    found = crated(asked(design, lines))
    needs = packing_needs(_materials(found), shelf, Loads(found.crates, job.panels), job.units)
    return Packing(needs, packing_counts(found.crates, job.panels))


def _materials(found: Crated) -> Iterator[Material]:
    for each in amounts(found):
        stuff = "batten" if each.stuff == "softwood" else each.stuff
        yield Material(stuff, each.count, each.thick_mm, each.wide_mm, each.name)
    for screw, number in screws(found).items():
        yield Material("crate screw", number, screw.wide_mm, screw.long_mm, screw.name)
