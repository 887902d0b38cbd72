"""A catalogue as a tree of records for programs: SI and mm, money as text."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from panewright.catalogue.offer import NOT_LISTED, PRICES, WIND, Offer, where
from panewright.catalogue.row import Row


@dataclass(frozen=True, slots=True)
class CatalogueRecord:
    """What a program reads."""

    name: str
    number: str
    maker: str
    revision: str
    currency: str
    quantities: tuple[int, ...]
    labour_per_hour: Decimal
    notes: tuple[str, ...]
    sizes: int
    holding: int
    rows: tuple[Row, ...]


def record(offer: Offer) -> CatalogueRecord:
    """The whole catalogue for programs."""
    job, family = offer.job, offer.family
    return CatalogueRecord(
        name=job.name,
        number=job.number,
        maker=job.maker,
        revision=offer.revision,
        currency=job.currency,
        quantities=family.quantities,
        labour_per_hour=family.order.money.labour_per_hour,
        notes=(where(offer).replace("\u2009", " "), PRICES, WIND, NOT_LISTED),
        sizes=len(offer.rows),
        holding=len(offer.holding),
        rows=offer.rows,
    )
