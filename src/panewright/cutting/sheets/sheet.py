"""Sheets, the panels cut from them, and what the cutter loses."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

Axis = Literal["across", "along"]  #: a cut across the sheet parts its width, one along it its height


class PanelTooLarge(ValueError):
    """A panel fits in no sheet."""


@dataclass(frozen=True, slots=True)
class Panel:
    """Rectangles of one size to cut out; `turns` is False where the sheet's pattern has a direction."""

    name: str
    width_mm: float  #: along the sheet's width
    height_mm: float
    quantity: int
    turns: bool = True  #: may be turned by 90 degrees
    order: str = ""  #: whose it is

    def __post_init__(self) -> None:
        if not (0 < self.width_mm < math.inf and 0 < self.height_mm < math.inf) or self.quantity < 0:
            raise ValueError(f"a panel has a width, a height and a number, got {self}")


@dataclass(frozen=True, slots=True)
class Sheet:
    """Sheets of one size: how many there are, and what one costs."""

    width_mm: float
    height_mm: float
    price: Decimal | None = None
    have: int | None = None  #: None: as many as are wanted
    name: str = ""
    remnant: bool = False  #: what was left of an earlier sheet: its edges are cut, and are not trimmed again
    tempered: bool = False

    def __post_init__(self) -> None:
        if not (0 < self.width_mm < math.inf and 0 < self.height_mm < math.inf) or (self.have or 0) < 0:
            raise ValueError(f"a sheet has a width and a height, and there are none or some, got {self}")
        if self.price is not None and not (self.price.is_finite() and self.price >= 0):
            raise ValueError(f"a sheet costs nothing or something, got {self}")
        if self.tempered:
            raise ValueError(
                f"{self.name or 'a sheet'} is tempered: it is never cut, it bursts. "
                "Order each pane to its size before it is tempered."
            )

    @property
    def area_mm2(self) -> float:
        """Width times height. [mm2]"""
        return self.width_mm * self.height_mm


@dataclass(frozen=True, slots=True)
class Cutter:
    """What a cut and the edges take, and how a sheet may be parted."""

    kerf_mm: float = 0.0  #: width of a saw cut; a scoring wheel takes nothing
    trim_mm: float = 0.0  #: cut off each edge of a sheet as delivered
    breakout_mm: float = 0.0  #: a strip narrower than this cannot be broken off
    stages: int = 0  #: most turns of the cutting direction, the first counted; 0: as many as it takes

    def __post_init__(self) -> None:
        if min(self.kerf_mm, self.trim_mm, self.breakout_mm, self.stages) < 0:
            raise ValueError(f"a cutter takes 0 or more, got {self}")


@dataclass(frozen=True, slots=True)
class Rectangle:
    """Where a thing lies on its sheet, from the sheet's lower left corner. [mm]"""

    left_mm: float
    bottom_mm: float
    width_mm: float
    height_mm: float


def usable_mm(sheet: Sheet, cutter: Cutter) -> tuple[float, float]:
    """Width and height within the trimmed edges. [mm]"""
    trim = 0.0 if sheet.remnant else 2 * cutter.trim_mm
    return sheet.width_mm - trim, sheet.height_mm - trim


def checked_sheets(sheets: Sequence[Sheet]) -> tuple[Sheet, ...]:
    """Sheets in a settled order; a `ValueError` where some have a price and others none."""
    if len({sheet.price is None for sheet in sheets if not sheet.remnant or sheet.price is not None}) > 1:
        raise ValueError(f"all sheets have a price or none has, got {tuple(sheets)}")
    there = [sheet for sheet in sheets if sheet.have != 0]
    return tuple(sorted(there, key=lambda s: (s.area_mm2, s.width_mm, s.price or 0, not s.remnant, s.name)))


def refuse_too_large(panels: Sequence[Panel], sheets: Sequence[Sheet], cutter: Cutter) -> None:
    """Raise `PanelTooLarge` with the panel and what the largest sheet leaves."""
    for panel in panels:
        if panel.quantity and not any(fits(panel, usable_mm(sheet, cutter)) for sheet in sheets):
            sizes = ", ".join("{:.0f} × {:.0f} mm".format(*usable_mm(sheet, cutter)) for sheet in sheets)
            raise PanelTooLarge(
                f"{panel.name} is {panel.width_mm:.1f} × {panel.height_mm:.1f} mm; the sheets leave "
                f"{sizes or 'nothing'} within their trimmed edges. Take larger sheets, or order it to size."
            )


def fits(panel: Panel, room_mm: tuple[float, float]) -> bool:
    """Whether a panel fits by its size alone."""
    width, height = room_mm
    turned = panel.turns and panel.height_mm <= width + 1e-6 and panel.width_mm <= height + 1e-6
    return turned or (panel.width_mm <= width + 1e-6 and panel.height_mm <= height + 1e-6)
