"""From the crate to a line of the offer: how many crates, sizes, mass, mass by volume, charge, and why."""

from __future__ import annotations

from panewright.crate.carrier import Offer
from panewright.crate.crated import Crated
from panewright.crate.deciding import crates_of
from panewright.crate.reasons import sizes
from panewright.panel.design import Design
from panewright.price.offers.carriage import Carriage
from panewright.units import show


def carriage(design: Design, found: Crated | None) -> Carriage | None:
    """Carriage of an order as its crates were reckoned; its charge only in the order's own currency.

    None where the customer collects them.
    """
    job = design.order.job
    if design.order.crate.by == "collected":
        return None
    if found is None:
        return Carriage("carriage", None)
    if found.taken is None:
        goods = crates_told(found, job.units)
        return Carriage("carriage", None, goods, "no carrier of the shelf takes it so")
    carrier = found.taken.carrier
    words, goods = (
        f"carriage by {carrier.kind}",
        f"{crates_told(found, job.units)}{charged(found.taken, job.units)}",
    )
    if found.price is not None and carrier.currency != job.currency:
        return Carriage(words, None, goods, f"the carrier's tariff is in {carrier.currency}")
    return Carriage(words, found.price, goods, found.because)


def crates_told(found: Crated, units: str) -> str:
    """Crates with their sizes and mass: 'one crate of 3 panels, 1799 mm × 543 mm × 1193 mm, 208 kg'."""
    number, each = (
        crates_of(found.panels, found.crates, found.goods, found.shell),
        "" if found.crates == 1 else "each ",
    )
    return f"{number}, {each}{sizes(found.outside, units)}, {show(found.gross_kg, 'kg', units)}"


def charged(taken: Offer, units: str) -> str:
    """What the carrier charges for where it is more: volume as mass."""
    divisor = f"{taken.carrier.divisor_cm3_kg:.0f}\u2009cm³"
    return f"; {show(taken.dimensional_kg, 'kg', units)} by volume, {divisor} to a kilogram"
