"""What a panel weighs, part by part, and whether one person may lift it."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.check import Check
from panewright.frame.shape.section import section
from panewright.glass.pane import Pane
from panewright.seal.quantity import bead_volume_ml
from panewright.seal.sealant import Bead
from panewright.structure.drilling.frame_plan import FramePlan
from panewright.units import MM

ONE_PERSON_KG = 23.0  #: recommended weight limit of one lift at its best (NIOSH, memory)
_SILICONE_KG_M3 = 1350.0  # structural silicone 1300 to 1400, data sheets


@dataclass(frozen=True, slots=True)
class Mass:
    """Mass of each part and of all."""

    parts: tuple[tuple[str, float], ...]  #: (what, kg)

    @property
    def total_kg(self) -> float:
        """The whole panel. [kg]"""
        return sum(kg for _, kg in self.parts)


def pane_mass_kg(pane: Pane) -> float:
    """Mass of a pane at its nominal thickness. [kg]"""
    volume = pane.long_mm * MM * pane.short_mm * MM * pane.sheet.nominal_mm * MM
    return volume * pane.sheet.density_kg_m3


def frame_mass_kg(frame: FramePlan) -> float:
    """Mass of the four rails, holes and mitres not taken off. [kg]"""
    return frame.rail_length_mm * MM * section(frame.rail).mass_kg_m


def bead_mass_kg(pane: Pane, bead: Bead, also_ml: float = 0.0) -> float:
    """Mass of the silicone bead, and of what else is done with it. [kg]"""
    volume_ml = bead_volume_ml(bead, pane.long_mm, pane.short_mm, pane.sheet.nominal_mm)
    return (volume_ml + also_ml) * 1e-6 * _SILICONE_KG_M3


def panel_mass(
    pane: Pane, frame: FramePlan, bead: Bead, others: tuple[tuple[str, float], ...] = (), also_ml: float = 0.0
) -> Mass:
    """Pane, rails and bead, and what lies on the pane (cells, ribbon, sundries) as (what, kg)."""
    return Mass(
        (
            ("pane", pane_mass_kg(pane)),
            ("rails", frame_mass_kg(frame)),
            ("bead", bead_mass_kg(pane, bead, also_ml)),
            *others,
        )
    )


def judge_mass(mass: Mass, most_kg: float = ONE_PERSON_KG) -> Check:
    """Whether one person may lift it; the limit is the order's."""
    return Check(
        "mass to lift",
        mass.total_kg,
        most_kg,
        "kg",
        "limit of the order; 23 kg is the recommended limit of one lift (NIOSH, memory)",
        "Take a thinner sheet, fewer cells, or lift it with two.",
        "frame",
    )
