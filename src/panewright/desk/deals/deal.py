"""A deal: which cell of a lot goes to which place of which panel, with all that is needed to ask of it again.

It is kept as JSON, a file in the maker's folder or a row of the records: the order's text, what was wished,
the cells' curves behind the panel's cover, who sits where, what it was held against, what was changed since.
"""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass, field, replace

from panewright.desk.deals.wish import Wish
from panewright.desk.deals.written import (
    MOST,
    Written,
    Wrong,
    cell,
    loaded,
    marks,
    pair,
    part,
    price,
    text_of,
    wish,
)
from panewright.errors import Problem, SheetError

WRITTEN_AS = 4  #: how the JSON is written
_READ = (
    1,
    2,
    3,
    WRITTEN_AS,
)  # before panels as matched, how well cells are known, and what is written of them
_LEAST = 1e-9  # of what a panel gives: a deal has no panel that gives nothing
_CURE = "Name the folder that `panewright lot match` wrote, or match the lot again."


@dataclass(frozen=True, slots=True)
class DealtPanel:
    """One panel: its cells by their places, 1 first, as the drawings number them."""

    cells: tuple[str, ...]
    power_w: float
    own_w: float  #: its cells, each by itself
    isc_a: float
    voc_v: float
    imp_a: float
    price: str = ""  #: by the price steps; '' where there are none
    bare_w: float = 0.0  #: its cells together without joints and leads; 0 in a deal kept before it was told
    curve: tuple[tuple[float, float], ...] = ()  #: volts and amperes, from short to open circuit

    @property
    def vmp_v(self) -> float:
        """Voltage of the most power. [V]"""
        return self.power_w / self.imp_a


@dataclass(frozen=True, slots=True)
class Swap:
    """A cell that was taken out, and the one that was put there instead; panels and places from 1."""

    panel: int
    place: int
    out: str
    into: str
    why: str = ""


@dataclass(frozen=True, slots=True)
class Against:
    """What the deal was held against, in the aim's own measure: watts, panels, hundredths of money."""

    score: tuple[float, ...]
    sorting: tuple[float, ...]
    chance: tuple[float, ...]
    bound: float
    bound_kind: str
    closed: float  #: share of the way from sorting to the bound


@dataclass(frozen=True, slots=True)
class Noted:
    """What the table of a lot says of a cell beside its readings; '' for nothing."""

    grade: str
    remark: str


@dataclass(frozen=True, slots=True)
class Deal:
    """All of it."""

    order: str  #: the order's text
    file: str
    lot: str  #: what the lot is called
    kind: str  #: of its cells
    wish: Wish
    marks: tuple[str, ...]
    figures: tuple[tuple[float, ...], ...]  #: of every cell, as `Diodes` names them, behind the cover
    panels: tuple[DealtPanel, ...]
    against: Against
    currency: str = ""
    swaps: tuple[Swap, ...] = field(default=())
    said: tuple[str, ...] = ()  #: what a maker should know of the lot
    as_matched: tuple[DealtPanel, ...] = ()  #: its panels before any exchange; none where none was exchanged
    sd_w: tuple[float, ...] = ()  #: standard deviation of every cell's watts by its own readings
    common_share: float = 0.0  #: the same of all watts together, by what all readings have in common
    grades: tuple[str, ...] = ()  #: of every cell as its table has it; empty where none has any
    remarks: tuple[str, ...] = ()  #: likewise

    @property
    def gone(self) -> tuple[str, ...]:
        """Cells that were taken out since, the first first."""
        seated = {mark for panel in self.panels for mark in panel.cells}
        return tuple(dict.fromkeys(each.out for each in self.swaps if each.out not in seated))

    @property
    def left(self) -> tuple[str, ...]:
        """Cells that are left over, as the lot has them."""
        taken = {mark for panel in self.panels for mark in panel.cells} | set(self.gone)
        return tuple(mark for mark in self.marks if mark not in taken)

    @property
    def written_of(self) -> dict[str, Noted]:
        """What the table says of each cell beside its readings."""
        none = ("",) * len(self.marks)
        both = zip(self.grades or none, self.remarks or none, strict=True)
        return {mark: Noted(*each) for mark, each in zip(self.marks, both, strict=True)}

    def with_panel(self, fresh: DealtPanel, swap: Swap) -> Deal:
        """With one panel after an exchange; what it was as matched stays told."""
        panels = (*self.panels[: swap.panel - 1], fresh, *self.panels[swap.panel :])
        before = self.as_matched if self.swaps else self.panels
        return replace(self, panels=panels, swaps=(*self.swaps, swap), as_matched=before)

    def place_of(self, mark: str) -> tuple[int, int] | None:
        """Panel and place of a cell, from 1; None where it sits nowhere."""
        for number, panel in enumerate(self.panels, 1):
            if mark in panel.cells:
                return number, panel.cells.index(mark) + 1
        return None


def as_text(deal: Deal) -> str:
    """The deal as it is kept; the same deal gives the same letters."""
    told = {"written_as": WRITTEN_AS, **asdict(deal)}
    return json.dumps(told, ensure_ascii=False, separators=(",", ":")) + "\n"


def from_text(text: str, file: str = "the deal") -> Deal:
    """The very same deal; `SheetError` where the text is none, with the key that is wrong."""
    try:
        return _deal(part(loaded(text)))
    except Wrong as wrong:
        why = f"This is no deal of cells: {wrong.reason}"
        raise SheetError([Problem(why, _CURE, file=file, key=wrong.key, value=wrong.value)]) from wrong


def _deal(told: Written) -> Deal:
    if (written := told.count("written_as")) not in _READ:
        raise Wrong("this program reads 1 to 4.", "written_as", written)
    told.only(Deal, "written_as")
    names = told.marks("marks")
    figures = told.row("figures", cell)
    if len(figures) != len(names):
        raise Wrong(f"there are {len(names)} cells and figures of {len(figures)}.", "figures")
    made = Deal(
        **{name: told.words(name) for name in ("order", "file", "lot", "kind", "currency")},
        wish=wish(told.part("wish"), written),
        marks=names,
        figures=figures,
        panels=tuple(_panel(each, written) for each in told.parts("panels")),
        against=_against(told.part("against")),
        swaps=tuple(_swap(each) for each in told.parts("swaps")),
        said=told.row("said", text_of),
        as_matched=tuple(_panel(each, written) for each in told.parts("as_matched")) if written > 1 else (),
        sd_w=told.numbers("sd_w") if written > 2 else (),
        common_share=told.number("common_share") if written > 2 else 0.0,
        grades=told.row("grades", text_of) if written > 3 else (),
        remarks=told.row("remarks", text_of) if written > 3 else (),
    )
    _fit(made)
    return made


def _panel(told: Written, written: int) -> DealtPanel:
    told.only(DealtPanel)
    figures = {name: told.number(name, _LEAST) for name in ("power_w", "own_w", "isc_a", "voc_v", "imp_a")}
    if written > 2:
        figures["bare_w"] = told.number("bare_w")
    curve = told.row("curve", pair) if written > 2 else ()
    return DealtPanel(told.row("cells", text_of), price=price(told), curve=curve, **figures)


def _swap(told: Written) -> Swap:
    told.only(Swap)
    counts = told.count("panel", 1), told.count("place", 1)
    return Swap(*counts, told.words("out"), told.words("into"), told.words("why"))


def _against(told: Written) -> Against:
    told.only(Against)
    return Against(
        told.numbers("score"),
        told.numbers("sorting"),
        told.numbers("chance"),
        told.number("bound"),
        told.words("bound_kind"),
        told.number("closed", -MOST),
    )


def _fit(deal: Deal) -> None:
    """Every cell is one of the lot's, in one place; every exchange is of a place that there is."""
    known = set(deal.marks)
    if deal.sd_w and (len(deal.sd_w) != len(known) or min(deal.sd_w) < 0):
        raise Wrong("every cell has one deviation, zero or more.", "sd_w")
    for name, words in (("grades", deal.grades), ("remarks", deal.remarks)):
        if words and len(words) != len(known):
            raise Wrong(f"there are {len(known)} cells and words of {len(words)}.", name)
    for name, panels in (("panels", deal.panels), ("as_matched", deal.as_matched)):
        seated = [(n, mark) for n, panel in enumerate(panels, 1) for mark in panel.cells]
        for n, mark in seated:
            if mark not in known:
                raise Wrong("a cell is not in the lot.", f"{name}[{n}].cells", mark)
        marks([mark for _, mark in seated], name)
    for n, swap in enumerate(deal.swaps, 1):
        if swap.panel > len(deal.panels) or swap.place > len(deal.panels[swap.panel - 1].cells):
            raise Wrong("there is no such place.", f"swaps[{n}]")
        if not {swap.out, swap.into} <= known:
            raise Wrong("a cell is not in the lot.", f"swaps[{n}]")
