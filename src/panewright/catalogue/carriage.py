"""Parcel or freight: how one panel of a size travels in its crate, as `crate` decides it, and why."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from panewright.catalogue.row import Carried
from panewright.crate.ask import ask_of
from panewright.crate.carrier import Offer
from panewright.crate.crating import Way, ways
from panewright.panel.design import Design

NO_CARRIER = "no carrier"


def travels(design: Design) -> Carried:
    """One panel alone, by the carrier that takes its crate for least."""
    found = ways(replace(ask_of(design), panels=1))
    taken = found[0].taken
    if taken is None:
        return Carried(NO_CARRIER, _against(_offers(found)))
    if taken.carrier.kind == "parcel":
        return Carried("parcel", f"{taken.carrier.name} takes it")
    parcels = (each for each in _offers(found) if each.carrier.kind == "parcel")
    return Carried("freight", _against(parcels) or f"{taken.carrier.name} takes it for least")


def _offers(found: tuple[Way, ...]) -> Iterable[Offer]:
    return (offer for way in found for offer in way.offers)


def _against(offers: Iterable[Offer]) -> str:
    """What stands in the way of the carrier that comes nearest to taking it."""
    refused = (each for each in offers if not each.takes)
    nearest = min(refused, key=lambda each: each.used, default=None)
    return f"{nearest.carrier.name}: {nearest.against}" if nearest else ""
