"""Panels as they stand in a crate, and the way along, across and up that all sizes go by.

On edge: the long side lies along, panels stand one behind the other across. Flat: they lie one over the
other. Blocks between the frames at the corners and half way keep what stands behind a panel, its junction
box, clear of the next; loose boards on all six sides of the stack spread the frames onto the foam.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Lay = Literal["on edge", "flat"]
Goods = Literal["panel", "kit"]

BOX_MM = 30.0  #: how far a junction box stands behind the pane; boxes are 20 to 30 mm (common practice)
CLEAR_MM = 5.0  #: behind it
LEAST_BLOCK_MM = 10.0
_HAIR_MM = 0.5  #: 3/8 in is as good as 10 mm
BLOCKS = 6  #: between two panels
BLOCK_SIDE_MM = 50.0


@dataclass(frozen=True, slots=True)
class Panel:
    """A finished panel or the flat package of a kit, as one who packs it sees it."""

    long_mm: float
    short_mm: float
    deep_mm: float  #: of the frame
    behind_mm: float  #: what stands out behind the frame
    mass_kg: float
    goods: Goods = "panel"  #: a finished one, or the flat package of a kit
    pane: bool = True  #: whether a pane is in it; the customer of a kit may bring it
    foam_mm: tuple[float, ...] = ()  #: thicknesses of foam that are sold, the thinnest first

    def __post_init__(self) -> None:
        if min(self.long_mm, self.short_mm, self.deep_mm, self.mass_kg) <= 0 or self.behind_mm < 0:
            raise ValueError(f"a panel has sizes and a mass, got {self}")
        if self.short_mm > self.long_mm:
            raise ValueError(f"the long side comes first, got {self}")

    @property
    def block_mm(self) -> float:
        """Thickness of the blocks behind it: of foam that is sold, where it is thick enough. [mm]"""
        least = max(LEAST_BLOCK_MM, self.behind_mm + CLEAR_MM)
        return next((thick for thick in self.foam_mm if thick >= least - _HAIR_MM), least)

    @property
    def pitch_mm(self) -> float:
        """From one panel to the next. [mm]"""
        return self.deep_mm + self.block_mm


@dataclass(frozen=True, slots=True)
class Stack:
    """So many panels of one kind within loose boards."""

    panel: Panel
    panels: int
    lay: Lay
    loose_mm: float  #: thickness of the boards

    def __post_init__(self) -> None:
        if self.panels < 1:
            raise ValueError(f"a crate holds a panel, got {self.panels}")
        if self.loose_mm <= 0:
            raise ValueError(f"loose boards have a thickness, got {self.loose_mm} mm")

    @property
    def deep_mm(self) -> float:
        """Through all panels, boards included. [mm]"""
        return self.panels * self.panel.pitch_mm + 2 * self.loose_mm

    @property
    def along_mm(self) -> float:
        """Along the crate. [mm]"""
        return self.panel.long_mm + 2 * self.loose_mm

    @property
    def across_mm(self) -> float:
        """Across the crate. [mm]"""
        return self.deep_mm if self.lay == "on edge" else self.short_mm

    @property
    def up_mm(self) -> float:
        """Upward. [mm]"""
        return self.short_mm if self.lay == "on edge" else self.deep_mm

    @property
    def short_mm(self) -> float:
        """Of the short side, boards included. [mm]"""
        return self.panel.short_mm + 2 * self.loose_mm


def behind_mm(heel_to_pane_mm: float) -> float:
    """How far the junction box stands out behind a frame whose pane lies so high over its heel. [mm]"""
    return max(0.0, BOX_MM - heel_to_pane_mm)
