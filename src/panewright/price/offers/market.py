"""A watt of this panel beside a watt of ready-made panel, as the shop states it.

The tool knows no market. The figure, where it was read and on which day are the shop's; without them the
question stays open, and the page says so.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from panewright.order.terms import MarketPrice
from panewright.price.money import amount, cents, exact

OPEN = (
    "No market price is stated, so whether buying ready-made is cheaper is not known here. Put what you read "
    "into the order: market_price, market_source and market_date under [money]."
)


@dataclass(frozen=True, slots=True)
class Comparison:
    """One panel beside the same watts bought."""

    own: Decimal  #: for one watt, without tax
    market: MarketPrice
    panel: Decimal  #: one panel of ours
    bought: Decimal  #: the same watts ready-made

    @property
    def cheaper_bought(self) -> bool:
        """Whether ready-made is cheaper."""
        return self.bought < self.panel

    @property
    def dearer_by(self) -> Decimal:
        """What one panel of ours costs more; below zero where it costs less."""
        return self.panel - self.bought


def compare(each: Decimal, pmp_w: float, market: MarketPrice | None) -> Comparison | None:
    """One panel of so many watts beside the market; None where no price is stated or there are no watts."""
    if market is None or pmp_w <= 0:
        return None
    watts = exact(pmp_w)
    return Comparison(cents(each / watts), market, each, cents(market.per_watt * watts))


def of_a_kit(hours_each: Decimal, brings: Sequence[str]) -> str:
    """Why a kit has no market beside it: its price leaves out what a ready-made panel holds.

    >>> of_a_kit(Decimal("13.5"), ("cells", "glass"))[:74]
    'A kit is not set beside ready-made panels: its price holds neither the 13.'
    """
    work = f"the {hours_each} hours that the customer builds"
    lacks = f"neither {work} nor what the customer brings ({', '.join(brings)})" if brings else f"not {work}"
    return f"A kit is not set beside ready-made panels: its price holds {lacks}."


def sentence(found: Comparison | None, currency: str, without: Sequence[str] = ()) -> str:
    """What the maker should know before building; parts `without` a price are not in what it compares.

    >>> sentence(None, "EUR") == OPEN
    True
    """
    if found is None:
        return OPEN
    there = f"{found.market.source}, {found.market.day.isoformat()}"
    but = f" without the price of {', '.join(without)}" if without else ""
    beside = (
        f"A watt of this panel is sold at {amount(found.own, currency)}{but}; a watt ready-made was "
        f"{amount(found.market.per_watt, currency)} ({there})."
    )
    verdict = _verdict(found, currency, lacking=bool(without))
    return f"{beside} {verdict} Both without tax and carriage, as far as that source says."


def _verdict(found: Comparison, currency: str, *, lacking: bool) -> str:
    if lacking and not found.cheaper_bought:
        return "Whether ready-made is cheaper is not known before every part has a price."
    if not found.cheaper_bought:
        less = amount(-found.dearer_by, currency)
        return f"The same watts ready-made would not be cheaper: one panel saves {less}."
    least = "at least " if lacking else ""
    ours, less = f"{least}{amount(found.panel, currency)}", f"{least}{amount(found.dearer_by, currency)}"
    return (
        f"Buying ready-made is cheaper: the same watts would cost {amount(found.bought, currency)} instead "
        f"of {ours}, {less} less a panel. Build for the size, the shape, the repair or the learning, not to "
        "save money."
    )
