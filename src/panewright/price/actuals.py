"""What the shop's own work says of breakage, waste and hours, weighed with common practice.

A shop that broke three of its first ten cells will not break a third of the next thousand. So common
practice counts like some work done before the first, and gives way as the shop's own grows:

    chance of breaking   (p₀ N + lost) / (N + taken)        N = 200 cells
    waste on top         (w₀ n + lost) / (n + used)         n = what 20 panels take
    pace                 (5 + panels × took / planned) / (5 + panels)

p₀ and w₀ are the table's figures; 'planned' is what the table says for the very same panels, so that large
and small ones count alike. How much common practice counts is itself common practice, without a source.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from panewright.price.bill import Need
from panewright.price.hours import RATES, SOURCE, Rate

CELLS = 200  #: broken as the table says, that count before the first of the shop's own
PANELS_OF_WASTE = 20
PANELS_OF_PACE = 5
_THOUSANDTH = Decimal("0.001")


@dataclass(frozen=True, slots=True)
class Taken:
    """How much of a part went into panels in this shop, and how much of it was broken or wasted."""

    name: str
    sold_by: str
    used: Decimal
    lost: Decimal


@dataclass(frozen=True, slots=True)
class Pace:
    """Minutes that some kinds of work took in this shop, beside the table's for the very same panels."""

    work: tuple[str, ...]  #: how the names of the kinds begin
    panels: int
    took: Decimal
    planned: Decimal

    @property
    def ratio(self) -> Decimal:
        """Of the table's minutes, weighed with it."""
        own = self.took / self.planned
        return ((PANELS_OF_PACE + self.panels * own) / (PANELS_OF_PACE + self.panels)).quantize(_THOUSANDTH)


@dataclass(frozen=True, slots=True)
class Actuals:
    """All of it; nothing where the shop has told nothing yet."""

    taken: tuple[Taken, ...] = ()
    paces: tuple[Pace, ...] = ()

    def of(self, name: str, sold_by: str) -> Taken | None:
        """What is known of a part, counted in the way it is sold."""
        return next((each for each in self.taken if (each.name, each.sold_by) == (name, sold_by)), None)


@dataclass(frozen=True, slots=True)
class PanelTook:
    """Minutes told of the steps of one panel, and how much of each kind of work is in it."""

    minutes: Mapping[str, Decimal]
    counts: Mapping[str, Decimal]


def pace(keys: tuple[str, ...], work: tuple[str, ...], panels: Iterable[PanelTook]) -> Pace | None:
    """The shop's pace at some steps: over the panels on which minutes were told of all of them."""
    rates = {rate.step: rate.minutes for rate in RATES if rate.step.startswith(work)}
    told = [each for each in panels if all(key in each.minutes for key in keys)]
    planned = [sum(each.counts.get(name, Decimal(0)) * rates[name] for name in rates) for each in told]
    pairs = [(each, plan) for each, plan in zip(told, planned, strict=True) if plan > 0]
    if not pairs:
        return None
    took = sum((each.minutes[key] for each, _ in pairs for key in keys), Decimal(0))
    return Pace(work, len(pairs), took, Decimal(sum(plan for _, plan in pairs)))


def rates(actuals: Actuals) -> tuple[Rate, ...]:
    """The table of minutes at the shop's own pace."""
    return tuple(_paced(rate, actuals.paces) for rate in RATES)


def _paced(rate: Rate, paces: tuple[Pace, ...]) -> Rate:
    own = next((each for each in paces if rate.step.startswith(each.work)), None)
    if own is None:
        return rate
    minutes = (rate.minutes * own.ratio).quantize(_THOUSANDTH).normalize()
    told = f"{own.ratio} of the table's: {_panels(own.panels)} of this shop, weighed with {SOURCE}"
    return replace(rate, minutes=minutes, source=told)


def _panels(number: int) -> str:
    return "one panel" if number == 1 else f"{number} panels"


def _of_panels(paces: tuple[Pace, ...]) -> str:
    """Over how many panels; each kind of work may have been told of another number."""
    least, most = min(each.panels for each in paces), max(each.panels for each in paces)
    return _panels(most) if least == most else f"{least} to {_panels(most)}"


def breakage(common: Decimal, own: Taken | None) -> Decimal:
    """Chance that a cell breaks.

    >>> breakage(Decimal("0.03"), None)
    Decimal('0.03')
    >>> breakage(Decimal("0.03"), Taken("125 mm", "each", used=Decimal(720), lost=Decimal(80)))
    Decimal('0.086')
    """
    if own is None:
        return common
    chance = (common * CELLS + own.lost) / (CELLS + own.used + own.lost)
    return chance.quantize(_THOUSANDTH)


def own_waste(need: Need, own: Taken | None) -> Need:
    """A need with the share that this shop loses of it; pieces that another rule counts stay as they are."""
    if own is None or need.buy is not None or need.one <= 0:
        return need
    return replace(need, waste=waste(need.one, need.waste, own), source=with_own(need.source, own))


def waste(one: Decimal, common: Decimal, own: Taken | None) -> Decimal:
    """Share lost on top of what goes in; `one` is what one panel takes.

    >>> waste(Decimal(10), Decimal("0.03"), Taken("tab", "metre", used=Decimal(300), lost=Decimal(24)))
    Decimal('0.060')
    """
    if own is None or one <= 0:
        return common
    before = one * PANELS_OF_WASTE
    return ((common * before + own.lost) / (before + own.used)).quantize(_THOUSANDTH)


def with_own(source: str, own: Taken | None) -> str:
    """A source that says that the shop's own figures are in it."""
    if own is None:
        return source
    lost, used = own.lost.normalize(), own.used.normalize()
    told = f"Lost in this shop: {lost:f} beside {used:f} used; weighed with common practice."
    return f"{source} {told}".strip()


def notes(actuals: Actuals | None) -> list[str]:
    """What a reader of the price must know of them."""
    told = []
    if actuals and actuals.paces:
        told.append(f"Hours are weighed with the minutes told in this shop, of {_of_panels(actuals.paces)}.")
    if actuals and actuals.taken:
        told.append("Breakage and waste are weighed with what was lost in this shop.")
    return told
