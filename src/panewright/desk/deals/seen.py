"""A deal as pages show it: panels, what it was held against, what is left; one panel place by place."""

from __future__ import annotations

import json
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Literal

import numpy as np

from panewright.cell.diodes import Diodes
from panewright.cell.peak import peak
from panewright.desk.deals import told
from panewright.desk.deals.curves import KeyFigures, picture_of
from panewright.desk.deals.deal import Deal, as_text, from_text
from panewright.desk.deals.doubted import Doubted, doubt_words, doubted

if TYPE_CHECKING:
    from panewright.desk import Made
    from panewright.desk.deals.kept import KeptDeal

MOST_INSTEAD = 10
_MOST_LEFT = 60


@dataclass(frozen=True, slots=True)
class SeenPanel:
    """One panel in the list."""

    number: int
    gives: str
    alone: str
    lost: str
    known: str  #: how well, and the chance of what it counts for
    price: str
    serial: str
    laid: int
    cells: int


@dataclass(frozen=True, slots=True)
class DealSeen:
    """A deal on its page."""

    sentence: str
    aim: str
    watts: str
    closed: str
    panels: tuple[SeenPanel, ...]
    priced: bool
    compared: tuple[told.Compared, ...]
    left: tuple[tuple[str, str], ...]  #: mark and watts, the strongest first
    more: int
    swaps: tuple[str, ...]
    said: tuple[str, ...]


def seen(kept: KeptDeal) -> DealSeen:
    """For its page."""
    deal, power = kept.deal, power_w(kept.deal)
    left = sorted(deal.left, key=lambda mark: -power[mark])
    return DealSeen(
        told.sentence(deal),
        deal.wish.words,
        told.watts(sum(each.power_w for each in deal.panels), 4),
        "the best" if deal.against.bound_kind == "exhausted" else f"{deal.against.closed:.0%}",
        tuple(_panel(kept, number, each) for number, each in enumerate(doubted(deal), 1)),
        any(each.price for each in deal.panels),
        told.compared(deal),
        tuple((mark, told.watts(power[mark], 4)) for mark in left[:_MOST_LEFT]),
        max(0, len(left) - _MOST_LEFT),
        tuple(told.swap_words(each) for each in reversed(deal.swaps)),
        (*deal.said, *doubt_words(deal)),
    )


def _panel(kept: KeptDeal, number: int, known: Doubted | None) -> SeenPanel:
    deal, each = kept.deal, kept.deal.panels[number - 1]
    return SeenPanel(
        number,
        told.watts(each.power_w),
        told.watts(each.own_w),
        told.lost_words(each),
        known_words(known),
        told.money(each.price, deal.currency) if each.price else "",
        kept.serials.get(number, ""),
        len(kept.laid_in(number)),
        len(each.cells),
    )


def known_words(known: Doubted | None) -> str:
    """How well a panel is known, in a line."""
    if known is None:
        return ""
    reaches = f"reaches {known.rating} with {known.reaches}; " if known.reaches else ""
    return f"{reaches}may be off by {known.own} itself, {known.common} with all"


def power_w(deal: Deal) -> Mapping[str, float]:
    """Watts of each cell by itself, behind the cover. [W]"""
    return dict(zip(deal.marks, _powers(deal.figures), strict=True))


@lru_cache(maxsize=4)
def _powers(figures: tuple[tuple[float, ...], ...]) -> tuple[float, ...]:
    return tuple(peak(Diodes.of_table(np.array(figures))).power_w.tolist())


@dataclass(frozen=True, slots=True)
class Place:
    """A place of a panel at the bench."""

    number: int
    mark: str  #: of the cell that belongs there
    part: str  #: its string and diode, and the cell's grade
    lies: str  #: the cell that lies there; '' where none does
    remark: str  #: of the cell that belongs there, as its table has it

    @property
    def done(self) -> bool:
        """Whether the right cell lies there."""
        return self.lies == self.mark

    @property
    def words(self) -> str:
        """For whoever cannot see the picture."""
        if self.done:
            return f"{self.mark}, laid"
        return f"{self.mark}, {self.lies} lies there" if self.lies else f"{self.mark}, not laid"


@dataclass(frozen=True, slots=True)
class PanelSeen:
    """One panel at the bench."""

    number: int
    serial: str
    gives: str
    places: tuple[Place, ...]
    key: KeyFigures
    chart: str  #: its predicted curve; '' where it was not kept

    @property
    def laid(self) -> int:
        """Places that are done."""
        return sum(each.done for each in self.places)

    @property
    def next(self) -> Place | None:
        """The place that is laid next: the first that is not done."""
        return next((each for each in self.places if not each.done), None)

    @property
    def marks(self) -> str:
        """Classes of the cells in the picture."""
        return json.dumps({str(p.number): _look(p, self.next) for p in self.places if _look(p, self.next)})

    @property
    def words(self) -> str:
        """What each cell is called."""
        return json.dumps({str(each.number): each.words for each in self.places})


def _look(place: Place, following: Place | None) -> str:
    if place.done:
        return "laid"
    if place.lies:
        return "wrong"
    return "next" if following and following.number == place.number else ""


def panel_seen(kept: KeptDeal, number: int, made: Made) -> PanelSeen:
    """A panel place by place."""
    layup, plan, there = made.design.layup, made.design.layup.plan, kept.laid_in(number)
    places, noted = [], kept.deal.written_of
    for cell, mark in zip(layup.cells, kept.deal.panels[number - 1].cells, strict=True):
        within = (cell.number - 1) % plan.in_series + 1
        diode = next(n for n, end in enumerate(layup.diode_after[1:], 1) if within <= end)
        part = f"string {cell.string + 1}, diode {diode}" if plan.strings > 1 else f"diode {diode}"
        lies = there[cell.number].cell if cell.number in there else ""
        grade = f"; grade {noted[mark].grade}" if noted[mark].grade else ""
        places.append(Place(cell.number, mark, f"{part}{grade}", lies, noted[mark].remark))
    panel = kept.deal.panels[number - 1]
    shown = tuple(places), KeyFigures.of(panel), picture_of(panel, number)
    return PanelSeen(number, kept.serials.get(number, ""), told.watts(panel.power_w), *shown)


def picture(
    made: Made, cells: Sequence[str], side: Literal["bench", "front"], looks: Mapping[int, str]
) -> str:
    """A panel with its cells' marks as one svg element, every cell a thing to touch."""
    from panewright.layup.drawn.parted import parted_marks
    from panewright.pack.figures.finished import rim
    from panewright.pack.pages.pick import beginning, ends
    from panewright.paper.screen import screen

    how: Literal["front", "behind"] = "behind" if side == "bench" else "front"
    marks = dict(enumerate(ends(cells, beginning(cells)), 1))
    return screen(parted_marks(made.design.layup, marks, how, rim(made.design.structural.frame)), looks)


@dataclass(frozen=True, slots=True)
class InsteadSeen:
    """A cell that may take another's place."""

    mark: str
    words: str


@dataclass(frozen=True, slots=True)
class CellSeen:
    """One cell: why it is where it is, and what may take its place."""

    mark: str
    words: str
    panel: int  #: 0: left over
    place: int
    instead: tuple[InsteadSeen, ...]
    more: int


def cell_seen(text: str, mark: str, taken: Collection[str] = ()) -> CellSeen:
    """One cell of a deal that is sent as its text; cells that lie elsewhere meanwhile replace nothing."""
    from panewright.desk.deals.dealing import revived
    from panewright.desk.deals.swapping import broken
    from panewright.desk.designed import designed

    deal = from_text(text)
    told.known(deal, mark)
    matched = revived(deal, designed(deal.order, deal.file).design)
    words = told.of_cell(deal, matched, mark)
    if deal.place_of(mark) is None:
        return CellSeen(mark, words, 0, 0, (), 0)
    found = broken(deal, matched, mark)
    free = [each for each in found.instead if each.mark not in set(taken)]
    shown = tuple(InsteadSeen(each.mark, each.words) for each in free[:MOST_INSTEAD])
    return CellSeen(mark, words, found.panel, found.place, shown, max(0, len(free) - MOST_INSTEAD))


def swapped_text(text: str, mark: str, into: str, why: str) -> str:
    """A deal sent as its text, with another cell in that place."""
    from panewright.desk.deals.dealing import revived
    from panewright.desk.deals.swapping import swapped
    from panewright.desk.designed import designed

    deal = from_text(text)
    matched = revived(deal, designed(deal.order, deal.file).design)
    return as_text(swapped(deal, matched, mark, into, why))
