"""A deal: which cell of a lot goes to which place of which panel, with all that is needed to ask of it again.

It is kept as JSON, a file in the maker's folder or a row of the records: the order's text, what was wished,
the cells' curves behind the panel's cover, who sits where, what it was held against, what was changed since.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from typing import Any

from panewright.desk.deals.wish import Wish
from panewright.errors import Problem, SheetError

WRITTEN_AS = 1  #: how the JSON is written


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
    """The very same deal; `SheetError` where the text is none."""
    try:
        told = json.loads(text)
        if told.pop("written_as") != WRITTEN_AS:
            raise ValueError
        return _deal(told)
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError) as broken:
        cure = "Name the folder that `panewright lot match` wrote, or its deal.json."
        raise SheetError([Problem("This is no deal of cells.", cure, file=file)]) from broken


def _deal(told: Mapping[str, Any]) -> Deal:
    wish, panels = dict(told["wish"]), told["panels"]
    wish["steps"] = tuple((str(w), str(p)) for w, p in wish["steps"])
    wish["soldered"] = tuple(tuple(map(str, each)) for each in wish["soldered"])
    against = {name: _plain(value) for name, value in told["against"].items()}
    made = Deal(
        **{name: str(told[name]) for name in ("order", "file", "lot", "kind", "currency")},
        wish=Wish(**wish),
        marks=tuple(map(str, told["marks"])),
        figures=tuple(tuple(map(float, row)) for row in told["figures"]),
        panels=tuple(DealtPanel(**{**each, "cells": tuple(map(str, each["cells"]))}) for each in panels),
        against=Against(**against),
        swaps=tuple(Swap(**each) for each in told["swaps"]),
        said=tuple(map(str, told["said"])),
    )
    if len(made.figures) != len(made.marks) or any(len(row) != 8 for row in made.figures):
        raise ValueError("every cell has its figures")
    return made


def _plain(value: Any) -> Any:
    return tuple(map(float, value)) if isinstance(value, list) else value
