"""Which carrier takes a crate, and what it asks: limits and prices from the shelf's table.

A carrier charges for mass or for room, whichever is more: the dimensional mass is the volume over the
carrier's divisor. Carriers round sizes and masses up in their own ways; that is left to them.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from panewright.check import Check
from panewright.crate.box import Crate
from panewright.crate.carton import Carton
from panewright.shelf.carriage import Carrier
from panewright.units import against, show


@dataclass(frozen=True, slots=True)
class Offer:
    """One carrier asked for one crate."""

    carrier: Carrier
    dimensional_kg: float
    billed_kg: float
    price: Decimal | None  #: of one crate; None where it does not take it, or must be asked
    used: float  #: of the limit that is nearest, or farthest past; at most 1 where it takes it
    limit: str  #: which limit that is: length, girth, mass, mass by volume, lifting
    against: str  #: why not, in words; "" where it takes it

    @property
    def takes(self) -> bool:
        """Whether the crate goes this way."""
        return not self.against


def offer(carrier: Carrier, crate: Crate | Carton, system: str = "metric") -> Offer:
    """What a carrier says to a crate."""
    out, gross = crate.outside, crate.gross_kg
    dimensional = out.volume_cm3 / carrier.divisor_cm3_kg
    billed = max(gross, dimensional)
    asked = [
        ("length", "long", out.sides_mm[0], carrier.longest_mm, "mm"),
        ("girth", "of length plus girth", out.girth_mm, carrier.girth_mm, "mm"),
        ("mass", "in mass", gross, carrier.most_kg, "kg"),
        ("mass by volume", "to be charged for", billed, _most_billed_kg(carrier), "kg"),
    ]
    told = [(name, words, is_, limit, unit) for name, words, is_, limit, unit in asked if limit is not None]
    name, words, is_, limit, unit = max(told, key=lambda each: each[2] / each[3])
    if carrier.kind == "parcel" and not crate.by_hand:
        heavy = f"a parcel is moved by hand, a crate of {show(gross, 'kg', system)} is not"
        return Offer(carrier, dimensional, billed, None, max(is_ / limit, 1.01), "lifting", heavy)
    if is_ > limit * (1 + 1e-9):
        has, takes = against(is_, limit, unit, system)
        refused = f"{has} {words}, it takes {takes}"
        return Offer(carrier, dimensional, billed, None, is_ / limit, name, refused)
    return Offer(carrier, dimensional, billed, _price(carrier, billed), is_ / limit, name, "")


def _most_billed_kg(carrier: Carrier) -> float | None:
    """Where its tariff ends. [kg]"""
    return carrier.bands[-1].to_kg if carrier.bands else None


def _price(carrier: Carrier, billed_kg: float) -> Decimal | None:
    """Of the first band that reaches so far; None where the tariff has no charge."""
    reaching = (band.price for band in carrier.bands if billed_kg <= band.to_kg * (1 + 1e-9))
    return next(reaching, None)


def carrier_check(offers: tuple[Offer, ...], shell: str = "crate") -> Check:
    """Some carrier of the shelf takes the crate."""
    nearest = min((each.used for each in offers), default=None)
    return Check(
        f"{shell} within a carrier's limits",
        nearest if nearest is not None else 1.0,
        1.0 if nearest is not None else None,
        "-",
        "carriers of the shelf, each limit its own",
        f"Take fewer panels to a {shell}, a smaller panel, or add a carrier to the shelf that takes it.",
        "crate",
    )
