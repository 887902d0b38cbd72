"""Offers of cells ranked for an order, as a page shows them."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from panewright.desk.designed import designed
from panewright.desk.lots import compared, offered
from panewright.desk.progress import at
from panewright.lots.buying.compare import NEVER, price_words
from panewright.price.money import amount
from panewright.units.showing import show


@dataclass(frozen=True, slots=True)
class OfferSeen:
    """One offer, its place in the order of the best first."""

    name: str
    beside: str  #: against the best one; '' of that
    buy: str
    first: str
    watt: str
    watt_range: str
    panel: str
    mismatch: str
    short: str
    reached: str


@dataclass(frozen=True, slots=True)
class OffersSeen:
    """All of them."""

    wanted: str
    rated: bool
    offers: tuple[OfferSeen, ...]


def ranked_for(text: str, order: str, file: str, panels: int, caution: float = 0.0) -> OffersSeen:
    """Offers out of their text, for so many panels of an order; 0: as many as it says."""
    design = designed(order, file).design
    at(20)
    asked = offered.asked(text, "the offers", design, panels or None)
    at(30)
    found = compared.ranked(asked, 1, caution)
    money = design.order.job.currency
    seen = []
    for each, reason in zip(found.offers, found.reasons, strict=True):
        seen.append(
            OfferSeen(
                each.offer.name,
                reason.beside,
                f"{each.need.bought} cells in {each.need.packs} packs",
                amount(each.cost, money),
                _watt(each.per_watt, f"\u2009{money}"),
                f"{_watt(each.per_watt_low)} to {_watt(each.per_watt_high)}",
                show(each.watts, "W", digits=4),
                f"{100 * each.mismatch:.2f} %",
                f"{100 * each.short:.0f} %",
                f"{100 * each.reached:.0f} %",
            )
        )
    want = asked.want
    wanted = f"{want.panels} panels of {want.cells_each} cells, enough with {want.sure:.1%}"
    return OffersSeen(wanted, want.rating_w is not None, tuple(seen))


def _watt(price: Decimal, money: str = "") -> str:
    """What a watt costs, in words where none is sold."""
    return price_words(price) if price == NEVER else f"{price:.3f}{money}"
