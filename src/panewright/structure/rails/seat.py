"""How far a rail's seat reaches under the pane, and what a square metre of covered panel weighs.

angle, channel     seat less wall less gap: the upright stands outside the pane's edge
tube               the pane lies on the tube's whole width, the gap outside of it
"""

from __future__ import annotations

from panewright.frame.rail import Rail
from panewright.glass.pane import Pane, Sheet
from panewright.seal.sealant import Bead
from panewright.units import MM

BEHIND_KG_M2 = 4.0  #: cells, ribbon and 3 mm of silicone or film with its back sheet; from their densities


def seat_under_pane_mm(rail: Rail, gap_mm: float) -> float:
    """From the pane's edge inward, covered by metal. [mm]

    >>> from panewright.frame.rail import Rail
    >>> seat_under_pane_mm(Rail("angle 30", "angle", 30, 30, 3, "6060-T66", 6000), 4.0)
    23.0
    """
    return max(0.0, rail.seat_mm - rail.wall_mm - gap_mm)


def beside_metal_mm(margin_mm: float, rail: Rail, gap_mm: float) -> float:
    """From silicon inward of this margin to the metal under the pane's rim. [mm]"""
    return margin_mm - seat_under_pane_mm(rail, gap_mm)


def sheet_kg_m2(sheet: Sheet) -> float:
    """A square metre of the bare sheet. [kg/m2]"""
    return sheet.density_kg_m3 * sheet.nominal_mm * MM


def mass_kg_m2(sheet: Sheet) -> float:
    """A square metre of pane with all that lies behind it. [kg/m2]"""
    return sheet_kg_m2(sheet) + BEHIND_KG_M2


def dam_mm(rail: Rail, bead: Bead) -> float:
    """Height of the rim that holds a pour on the back of the pane: glue line and the seat's wall. [mm]"""
    return bead.glue_line_mm + rail.wall_mm


def poured_mm2(pane: Pane, rail: Rail, bead: Bead, depth_mm: float) -> float:
    """Area of the pane's back that a pour covers, its mean over the depth. [mm2]

    Up to the glue line it runs in under the seat as far as the bead; what stands higher, the seat holds.
    """
    if not depth_mm > 0:
        raise ValueError(f"a pour has a depth, got {depth_mm} mm")
    low_mm = min(depth_mm, bead.glue_line_mm)
    inner_mm = max(bead.bite_mm, seat_under_pane_mm(rail, bead.gap_mm))
    low, high = _inside_mm2(pane, bead.bite_mm), _inside_mm2(pane, inner_mm)
    return (low * low_mm + high * (depth_mm - low_mm)) / depth_mm


def _inside_mm2(pane: Pane, rim_mm: float) -> float:
    """The pane less a rim all round."""
    return max(0.0, pane.long_mm - 2 * rim_mm) * max(0.0, pane.short_mm - 2 * rim_mm)
