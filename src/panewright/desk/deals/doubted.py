"""How well each panel of a deal is known, and with which chance it reaches what it counts for; in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from panewright.desk.deals.wish import counted_w
from panewright.units.showing import show

if TYPE_CHECKING:
    from panewright.desk.deals.deal import Deal

_SURE, _SELDOM = 0.995, 0.005  # beyond these a chance is not told in whole per cent


@dataclass(frozen=True, slots=True)
class Doubted:
    """One panel; standard deviations of its watts, and the chance of its rating or step."""

    own_w: float
    common_w: float
    rating_w: float | None  #: None where nothing is asked of a panel
    chance: float | None

    @property
    def own(self) -> str:
        """By its own cells' readings."""
        return show(self.own_w, "W", digits=2)

    @property
    def common(self) -> str:
        """By what all readings have in common."""
        return show(self.common_w, "W", digits=2)

    @property
    def reaches(self) -> str:
        """The chance, in words."""
        if self.chance is None:
            return ""
        if self.chance > _SURE:
            return "over 99 %"
        return "under 1 %" if self.chance < _SELDOM else f"{self.chance:.0%}".replace("%", " %")

    @property
    def rating(self) -> str:
        """What is to be reached."""
        return "" if self.rating_w is None else f"{self.rating_w:g}\u2009W"


def doubted(deal: Deal) -> tuple[Doubted | None, ...]:
    """Of every panel; None for a deal that was kept before it was told."""
    import numpy as np

    from panewright.lots.matching.doubt import Doubt

    if not deal.sd_w:
        return (None,) * len(deal.panels)
    lot, found = Doubt(np.array(deal.sd_w), deal.common_share), []
    where = {mark: k for k, mark in enumerate(deal.marks)}
    for panel in deal.panels:
        each = lot.of([where[mark] for mark in panel.cells], panel.power_w)
        rating = counted_w(deal.wish, panel.price)
        chance = None if rating is None else each.chance(panel.power_w, rating)
        found.append(Doubted(each.own_w, each.common_w, rating, chance))
    return tuple(found)


def doubt_words(deal: Deal) -> Iterator[str]:
    """What the figures mean, once for all panels."""
    known = [each for each in doubted(deal) if each is not None]
    if not known:
        return
    own, common = (
        max(known, key=lambda each: each.own_w).own,
        max(known, key=lambda each: each.common_w).common,
    )
    yield (
        f"What a panel gives may be off by {own} through its own cells' readings, which shrinks as cells are "
        f"more, and by {common} through what all readings have in common (light, meters, thermometer), which "
        "does not shrink and moves all panels alike; one standard deviation each."
    )
    weak = [each for each in known if each.chance is not None and each.chance < _LIKELY]
    if weak and not deal.wish.sure:
        yield (
            f"Panels that miss what they count for more often than once in ten: {len(weak)} of {len(known)}. "
            "To be surer ask for a chance, such as 90 %: the rating is raised by so much."
        )


_LIKELY = 0.9
