"""What a plan comes to before anything is placed: pane size, silicon share, where the leads lie."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.cell.kind import CellKind
from panewright.layup.candidates import strip_shape
from panewright.layup.layup import Plan


@dataclass(frozen=True, slots=True)
class PlanFacts:
    """A plan in figures."""

    pane_width_mm: float
    pane_height_mm: float
    aspect: float  #: long side over short side
    leads_one_end: bool
    cells_a_diode: int
    silicon_share: float  #: of the pane's area, clipped corners not taken off

    @property
    def long_mm(self) -> float:
        """The pane's long side. [mm]"""
        return max(self.pane_width_mm, self.pane_height_mm)

    @property
    def short_mm(self) -> float:
        """The pane's short side. [mm]"""
        return min(self.pane_width_mm, self.pane_height_mm)

    @property
    def area_m2(self) -> float:
        """The pane's area. [m2]"""
        return self.pane_width_mm * self.pane_height_mm * 1e-6


def pane_size_mm(plan: Plan, width_mm: float, length_mm: float) -> tuple[float, float]:
    """Width and height of the pane for cells of that width and length. [mm]"""
    wide = 2 * plan.side_margin_mm + plan.columns * width_mm + (plan.columns - 1) * plan.string_gap_mm
    high = 2 * plan.end_margin_mm + plan.rows * length_mm + (plan.rows - 1) * plan.cell_gap_mm
    return wide, high


def facts(plan: Plan, kind: CellKind) -> PlanFacts:
    """The plan in figures for that kind of cell."""
    shape = strip_shape(kind)
    wide, high = pane_size_mm(plan, shape.width_mm, shape.length_mm)
    silicon = plan.columns * plan.rows * shape.width_mm * shape.length_mm
    return PlanFacts(
        pane_width_mm=wide,
        pane_height_mm=high,
        aspect=max(wide, high) / min(wide, high),
        leads_one_end=plan.leads_one_end,
        cells_a_diode=plan.cells_a_diode,
        silicon_share=silicon / (wide * high),
    )
