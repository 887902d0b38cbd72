"""Where a bolt finds room in a rail that already holds a pane, and what it bears there.

In the upright it must sit above the pane's face, or its nut meets the edge of the glass; there it is pushed
sideways. Where the upright is too low it goes through the seat, inside the bead; there it is pulled, and
the seat bends as a cantilever whose load spreads at 45 degrees (common practice). A tube is bolted through
the middle of its outer side.

Pull: 0.75 of the tensile strength over 2.34 (Aluminum Design Manual J.3, recalled), or 0.9 fub As / 1.25 (EN
1993-1-8 table 3.4, recalled).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.check import Check
from panewright.frame.aluminium import GAMMA_M2, Family, bending_limit_mpa, bending_source
from panewright.frame.bolt import M6, Bolt, bolt_limit_n
from panewright.frame.rail import Rail
from panewright.glass.pane import Pane
from panewright.seal.sealant import Bead

Leg = Literal["upright", "seat"]

WASHER_MM = 12.0  #: of an M6, ISO 7089
_CLEAR_MM = 1.0  # between washer and glass or bead
_EDGE_MM = 9.0  # least from the middle of an M6 to an edge, one and a half diameters


@dataclass(frozen=True, slots=True)
class Mount:
    """Where bolts go through a rail."""

    leg: Leg
    across_mm: float  #: from the outside of the other leg
    edge_mm: float  #: to the free edge of this leg


def face_mm(rail: Rail, bead: Bead, pane: Pane) -> float:
    """Height of the pane's face above the outside of the seat. [mm]"""
    return rail.wall_mm + bead.glue_line_mm + pane.sheet.nominal_mm


def mount_place(rail: Rail, bead: Bead, pane: Pane) -> Mount | None:
    """The leg and line the bolts go through; None where there is no room at all."""
    half = WASHER_MM / 2 + _CLEAR_MM
    middle = rail.upright_mm / 2
    if rail.profile == "tube":
        return Mount("upright", middle, middle)
    across = max(middle, face_mm(rail, bead, pane) + half)
    if rail.pocket.top_mm - across >= _EDGE_MM:
        return Mount("upright", across, rail.upright_mm - across)
    inside = rail.wall_mm + bead.gap_mm + bead.bite_mm + half
    if rail.seat_mm - inside >= _EDGE_MM:
        return Mount("seat", inside, rail.seat_mm - inside)
    return None


def judge_mount(rail: Rail, place: Mount | None, reaction_n: float, family: Family) -> tuple[Check, ...]:
    """One M6 A2-70 at each bracket, and the leg it goes through."""
    if place is None:
        return (_no_room(rail),)
    if place.leg == "upright":
        return (_side_check(rail, M6, place, reaction_n, family),)
    return (_pull_check(M6, reaction_n, family), _seat_check(rail, place, reaction_n, family))


def pull_limit_n(bolt: Bolt, family: Family) -> float:
    """Tension a bolt may bear. [N]"""
    strength = bolt.rupture_mpa * bolt.area_mm2
    return 0.75 * strength / 2.34 if family == "ASCE" else 0.9 * strength / GAMMA_M2


def _no_room(rail: Rail) -> Check:
    source = "geometry: washer, edge and pane need room"
    cure = "Take a rail with a higher upright or a wider seat."
    return Check("room for the bracket bolt", rail.upright_mm, None, "mm", source, cure, "frame")


def _side_check(rail: Rail, bolt: Bolt, place: Mount, reaction_n: float, family: Family) -> Check:
    limit = bolt_limit_n(rail, bolt, place.edge_mm, family)
    asce, en = "Aluminum Design Manual J.3, 2 d t Ftu/1.95", "EN 1999-1-1 table 8.5"
    cure = "Use more brackets, two bolts to a bracket, or a thicker rail."
    source = asce if family == "ASCE" else en
    return Check(f"bracket bolt {bolt.name} in the upright", reaction_n, limit, "N", source, cure, "frame")


def _pull_check(bolt: Bolt, reaction_n: float, family: Family) -> Check:
    source = "Aluminum Design Manual J.3, tension" if family == "ASCE" else "EN 1993-1-8 table 3.4, tension"
    limit = pull_limit_n(bolt, family)
    cure = "Use more brackets or two bolts to a bracket."
    return Check(f"bracket bolt {bolt.name} in the seat", reaction_n, limit, "N", source, cure, "frame")


def _seat_check(rail: Rail, place: Mount, reaction_n: float, family: Family) -> Check:
    lever = place.across_mm - rail.wall_mm
    stress = 6 * reaction_n * lever / ((2 * lever + WASHER_MM) * rail.wall_mm**2)
    limit = bending_limit_mpa(rail.alloy, family, rail.wall_mm)
    cure = "Use more brackets, a thicker rail, or an upright high enough for the bolt."
    return Check("seat bending at a bracket", stress, limit, "MPa", bending_source(family), cure, "frame")
