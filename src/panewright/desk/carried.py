"""How one of a price list's sizes travels: a finished panel in its crate, a kit as its flat package."""

from __future__ import annotations

from panewright.catalogue import carriage
from panewright.catalogue.row import Asked, Carried
from panewright.pack.sent import asked as sent
from panewright.panel.design import Design
from panewright.price.offers.quote import Priced


def travels(design: Design, asked: Asked, bare: Priced) -> Carried:
    """One alone, as a quote of it sends it; `bare` is its price at the workshop."""
    return carriage.travels(design, asked, bare, sent(design, bare.lines))
