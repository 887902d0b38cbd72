"""From the crate to the price: its wood, foam and screws as parts, its making as work."""

from __future__ import annotations

from collections.abc import Iterator

from panewright.crate.amounts import amounts, screws
from panewright.crate.carton import Carton
from panewright.crate.crated import Crated, crated
from panewright.crate.timber import Stuff
from panewright.pack.sent import asked
from panewright.panel.design import Design
from panewright.price.offers.quote import priced
from panewright.price.packing import Loads, Material, Of, Packing, packing_counts, packing_needs
from panewright.shelf.shelf import Shelf

_CALLED: dict[Stuff, Of] = {"softwood": "batten", "plywood": "plywood", "foam": "foam", "card": "carton"}


def packing(design: Design, shelf: Shelf) -> Packing:
    """What the crates of an order take, of panels or of kits; nothing where they are collected."""
    job, order = design.order.job, design.order
    if order.crate.by == "collected":
        return Packing()
    lines = priced(design, shelf).lines if order.kit.is_kit else ()
    found = crated(asked(design, lines))
    sent = Loads(found.crates, job.panels, found.shell)
    needs = packing_needs(_materials(found), shelf, sent, job.units)
    return Packing(needs, packing_counts(sent), found.crates, found.shell)


def _materials(found: Crated) -> Iterator[Material]:
    for each in amounts(found):
        stuff = _CALLED[each.stuff]
        yield Material(stuff, each.count, each.thick_mm, each.wide_mm, each.name)
    if isinstance(found.crate, Carton):
        yield Material("void fill", found.crate.fill_kg)
    for screw, number in screws(found).items():
        yield Material("crate screw", number, screw.wide_mm, screw.long_mm, screw.name)
