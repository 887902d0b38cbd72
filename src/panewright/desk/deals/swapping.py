"""A cell broke at the bench: what may take its place, what each costs, and the deal with one of them."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from panewright.desk.deals.deal import Deal, DealtPanel, Swap
from panewright.desk.deals.told import known, watts
from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.lots.matching.matched import Matched

MOST = 10  #: replacements that are listed


@dataclass(frozen=True, slots=True)
class Instead:
    """A cell that may take the place."""

    mark: str
    power_w: float  #: of the panel with it
    change_w: float
    change_price: Decimal | None
    own_w: float  #: of the cell by itself
    left_w: float  #: of the cells that are then left over

    @property
    def words(self) -> str:
        """What it costs, and what stays."""
        money = ""
        if self.change_price is not None:
            money = f", {self.change_price:+.2f} in price" if self.change_price else ", the same price"
        stays = f"a cell of {watts(self.own_w, 4)}; {watts(self.left_w, 4)} stay left over"
        return f"the panel gives {watts(self.power_w)}, {_change(self.change_w)}{money}; {stays}"


def _change(change_w: float) -> str:
    return "as before" if abs(change_w) < 5e-4 else f"{change_w:+.3f}\u2009W"


@dataclass(frozen=True, slots=True)
class Broken:
    """A cell that is to be taken out, its place, and what may go there, the best for the aim first."""

    mark: str
    panel: int
    place: int
    instead: tuple[Instead, ...]


def broken(deal: Deal, matched: Matched, mark: str) -> Broken:
    """What may take a cell's place; `RecordError` where it sits in no panel."""
    from panewright.lots.matching.substitute import substitute

    known(deal, mark)
    found = deal.place_of(mark)
    if found is None:
        cure = "Only a cell that sits in a panel is replaced; simply set this one aside."
        raise RecordError([Problem("This cell is in no panel.", cure, key="cell", value=mark[:40])])
    panel, place = found
    seat = matched.rules.seats.place(place - 1)
    ranked = substitute(matched, panel - 1, seat)
    instead = tuple(
        Instead(each.mark, each.power_w, each.change_w, each.change_price, each.own_w, each.left_w)
        for each in ranked
    )
    return Broken(mark, panel, place, instead)


def swapped(deal: Deal, matched: Matched, mark: str, into: str, why: str = "") -> Deal:
    """The deal with another cell in that place; the old one stays told."""
    found = broken(deal, matched, mark)
    if into not in {each.mark for each in found.instead}:
        known(deal, into)
        cure = "Take one of those that are listed."
        raise RecordError([Problem("This cell may not go there.", cure, key="with", value=into[:40])])
    before = deal.panels[found.panel - 1]
    cells = tuple(into if each == mark else each for each in before.cells)
    fresh = _reckoned(matched, cells)
    return deal.with_panel(fresh, Swap(found.panel, found.place, mark, into, " ".join(why.split())[:200]))


def _reckoned(matched: Matched, cells: tuple[str, ...]) -> DealtPanel:
    """A panel with these cells, by the exact circuit."""
    import numpy as np

    from panewright.desk.deals.dealing import panel_of
    from panewright.lots.matching.match import panels_with

    where = {mark: k for k, mark in enumerate(matched.lot.marks)}
    seats = np.array([[where[mark] for mark in cells]])
    return panel_of(panels_with(matched.lot, matched.asked, seats)[0])
