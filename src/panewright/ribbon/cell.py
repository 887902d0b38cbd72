"""A cell as its ribbon sees it, and what ribbon and watts are worth."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.ribbon.resistance import TabRun
from panewright.ribbon.stress import Wafer


@dataclass(frozen=True, slots=True)
class Contacts:
    """So many tabs on a cell, and what its fingers make of it."""

    shares: tuple[float, ...]  #: of the cell's current, that each tab takes
    finger_ohm: float = 0.0  #: in series with the cell, over that with a tab on every busbar

    def __post_init__(self) -> None:
        if not (self.shares and abs(sum(self.shares) - 1) < 1e-9 and self.finger_ohm >= 0):
            raise ValueError(f"tabs share the whole current, and fewer never help the fingers, got {self}")


def on_every_busbar(busbars: int) -> Contacts:
    """As the nameplate counts a cell."""
    return Contacts((1 / busbars,) * busbars)


@dataclass(frozen=True, slots=True)
class TabbedCell:
    """A cell, or strip of a cell, as a tab sees it."""

    run: TabRun
    busbar_width_mm: float
    area_mm2: float
    wafer_mm: float
    imp_a: float  #: at STC
    pmp_w: float  #: at STC
    fewer: tuple[Contacts, ...] = ()  #: ways to leave busbars without a tab, the most tabs first

    @property
    def width_mm(self) -> float:
        """Across the busbars, clipped corners evened out. [mm]"""
        return self.area_mm2 / self.run.length_mm

    @property
    def wafer(self) -> Wafer:
        """As its tabs pull at it."""
        return Wafer(self.width_mm, self.run.length_mm, self.wafer_mm, self.run.busbars)


@dataclass(frozen=True, slots=True)
class Worth:
    """What the maker pays for ribbon, and what watts and room are worth; in one currency."""

    per_metre: tuple[float, ...]  #: price of a metre, one for each candidate
    per_watt: float  #: what a lost watt costs to make good
    per_m2: float = 0.0  #: what room for ribbon beside the cells costs, in pane, pour and back

    def __post_init__(self) -> None:
        if not all(price >= 0 for price in (*self.per_metre, self.per_watt, self.per_m2)):
            raise ValueError(f"prices are zero or more, got {self}")
