"""A finished plan of sheets: panels in their places, cuts in order, rests, and how sure it is the best."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from decimal import Decimal

from panewright.cutting.sheets.layout import Placed, Step
from panewright.cutting.sheets.sheet import Cutter, Rectangle, Sheet


@dataclass(frozen=True, slots=True)
class SheetCut:
    """One sheet: panels in their places, the cuts in their order, and what is left."""

    sheet: Sheet
    panels: tuple[Placed, ...]
    steps: tuple[Step, ...]
    kept: tuple[Rectangle, ...]  #: rests that go back into the rack
    lost: tuple[Rectangle, ...]  #: rests that do not

    @property
    def panels_mm2(self) -> float:
        """Area of all panels. [mm2]"""
        return sum(each.at.width_mm * each.at.height_mm for each in self.panels)


@dataclass(frozen=True, slots=True)
class SheetPlan:
    """All sheets, the fullest first."""

    sheets: tuple[SheetCut, ...]
    cutter: Cutter
    proven: bool  #: whether no plan costs less; without prices, whether none takes less area
    cost: Decimal | None
    bound: float  #: no plan costs less; without prices, takes less area [mm2]

    @property
    def gap(self) -> float:
        """By what share of it the cost may lie above the least; 0 where it is proven. [1]"""
        if self.proven or not self.sheets:
            return 0.0
        cost = self.area_mm2 if self.cost is None else float(self.cost)
        return max(0.0, 1 - self.bound / cost) if cost else 0.0

    @property
    def area_mm2(self) -> float:
        """Of all sheets. [mm2]"""
        return sum(cut.sheet.area_mm2 for cut in self.sheets)

    @property
    def waste(self) -> float:
        """Share of the sheets that is in no panel and is not kept. [1]"""
        kept = sum(rest.width_mm * rest.height_mm for cut in self.sheets for rest in cut.kept)
        used = sum(cut.panels_mm2 for cut in self.sheets) + kept
        return 1 - used / self.area_mm2 if self.sheets else 0.0

    @property
    def kept(self) -> tuple[Sheet, ...]:
        """Remnants that go back into the rack, the largest first."""
        found = [
            Sheet(rest.width_mm, rest.height_mm, None, 1, cut.sheet.name, remnant=True)
            for cut in self.sheets
            for rest in cut.kept
        ]
        return tuple(sorted(found, key=lambda sheet: (-sheet.area_mm2, sheet.width_mm, sheet.name)))

    @property
    def grouped(self) -> tuple[tuple[SheetCut, int], ...]:
        """Sheets cut alike, with their number."""
        return tuple(Counter(self.sheets).items())
