"""A plastic pane with the cells and the bead that hold on to it: why a thin sheet fails them.

Cells: a sheet that grows by damp or heat pulls the wafer along through what bonds them, a shear lag [V];
where it bows, the wafer bends as well, by half its thickness over the radius:

    stretch = free strain x S_s/(S_s + S_w) x (1 - 1/cosh(l L/2)),   l^2 = G/g (1/S_s + 1/S_w)
    S = modulus x thickness of sheet and wafer, G and g of the bond, L the longer side of the cell

Bead: the sheet's edge turns where one face grows more than the other, and opens the bead on one side by half
its bite times that turn.

What wind and snow do to the cells on it, and the shear lag's own figures: `bonded_cells`. [V] there.
"""

from __future__ import annotations

from panewright.check import Check
from panewright.glass.pane import Pane
from panewright.glass.plastic import TEN_YEARS_S, creep_modulus_pa, plastic
from panewright.glass.warp import Warp, damp_growth, one_face_damp, one_face_warm
from panewright.seal.sealant import Bead
from panewright.structure.panes.bonded_cells import BONDS, SOURCE, WAFER_BEARS, Carried, lag_share
from panewright.units import MM

_MONTH_S = TEN_YEARS_S / 120
_HOUR_S = 3600.0


def plastic_checks(pane: Pane, carried: Carried, bead: Bead) -> tuple[Check, ...]:
    """Cells and bead against what damp and heat do to a plastic sheet; none for glass."""
    if pane.sheet.material == "glass":
        return ()
    return (_cells_check(pane, carried), _bead_check(pane, bead))


def cell_strain(pane: Pane, carried: Carried) -> float:
    """Largest pull on a cell, stretch and bending together, by damp or by heat. [-]"""
    name = pane.sheet.material
    if name == "glass":
        raise ValueError("glass does not carry cells along")
    if carried.encapsulation not in BONDS:
        return 0.0  # nothing is bonded to the pane
    cool_pa, hot_pa, _ = BONDS[carried.encapsulation]
    warm = pane.sheet.expansion_per_k * max(0.0, carried.warmer_k)
    return max(
        _stretch(pane, carried, cool_pa, _MONTH_S) * damp_growth(name) + _bent(carried, one_face_damp(pane)),
        _stretch(pane, carried, hot_pa, _HOUR_S) * warm + _bent(carried, one_face_warm(pane)),
    )


def _bent(carried: Carried, warp: Warp) -> float:
    return warp.curvature_per_m * carried.wafer_mm * MM / 2


def _stretch(pane: Pane, carried: Carried, bond_pa: float, lasting_s: float) -> float:
    """Share of the sheet's free strain that reaches the middle of a wafer. [-]  [V]"""
    sheet, name = pane.sheet, pane.sheet.material
    kind = plastic("acrylic" if name == "acrylic" else "polycarbonate", sheet.name)
    pulls = creep_modulus_pa(kind, lasting_s) * sheet.thickness_mm * MM
    return lag_share(pulls, carried, bond_pa)


def _cells_check(pane: Pane, carried: Carried) -> Check:
    return Check(
        f"cells on {pane.sheet.material} that grows and bows",
        cell_strain(pane, carried) * 100,
        WAFER_BEARS * 100,
        "%",
        SOURCE,
        "Take glass, a silicone pour instead of film, or smaller cells.",
        "glass",
    )


def _bead_check(pane: Pane, bead: Bead) -> Check:
    turn = max(one_face_damp(pane).edge_turn, one_face_warm(pane).edge_turn)
    return Check(
        f"bead at the turned edge of {pane.sheet.material}",
        turn * bead.bite_mm / 2 / bead.glue_line_mm * 100,
        bead.sealant.movement * 100,
        "%",
        "shop's own reckoning: one face damp or warm (common practice), against the sealant's movement class",
        "Take a thicker sheet (the trade's habit is 1/4 in or more), a smaller pane or a thicker glue line.",
        "glass",
    )
