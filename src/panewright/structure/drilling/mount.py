"""Where a bolt finds room in a rail that already holds a pane, and what it bears there.

In the upright it must sit above the pane's face, or its nut meets the edge of the glass; there it is pushed
across itself by the pane, and pulled by the rail that would move sideways. Where the upright is too low it
goes through the seat, inside the bead; there the pane pulls it, and the rail pushes it across itself. The leg
it goes through bends under its pull as a cantilever whose load spreads at 45 degrees (common practice); the
side of a tube as a beam between its corners.

Pull: 0.75 of the tensile strength over 2.34 (Aluminum Design Manual J.3, recalled), or 0.9 fub As / 1.25 (EN
1993-1-8 table 3.4, recalled). Pull and push at once: squares of the shares, no more than one (AISC 360 J3.7,
recalled); or push plus pull / 1.4 (EN 1993-1-8 table 3.4, recalled). Through the wall: a ring about the nut
sheared at rupture, 0.6 pi d t fu (EN 1999-1-1 table 8.5 Bp, recalled); the American books have no rule for a
bolt and are given the same ring at 0.6 Ftu over 1.95.

Along the rail the bolt has the play of its hole, or a slot: slots.py. Weight and snow go down the slope.
Where the rail runs up it they push its bolts along it, as well as across; where it lies level they push a
bolt in the seat the way the rail would move, and press an upright on its bracket.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from panewright.check import Check
from panewright.frame.joining.bolt import M6, Bolt, bolt_limit_n, shear_limit_n
from panewright.frame.metals.aluminium import (
    GAMMA_M2,
    OMEGA_RUPTURE,
    Family,
    bending_limit_mpa,
    bending_source,
)
from panewright.frame.metals.metal import rupture_mpa
from panewright.frame.rail import Rail
from panewright.glass.pane import Pane
from panewright.seal.sealant import Bead

Leg = Literal["upright", "seat"]
NUT_SHARE = 1.6  #: mean of a hexagon's corners and flats, of its bolt; ISO 4017, recalled

WASHER_MM = 12.0  #: of an M6, ISO 7089
_CLEAR_MM = 1.0  # between washer and glass or bead
_EDGE_MM = 9.0  # least from the middle of an M6 to an edge, one and a half diameters


@dataclass(frozen=True, slots=True)
class Hold:
    """What one bracket's bolt has to hold of a rail, at the level of strength."""

    across_n: float  #: of the pane, square to it
    sideways_n: float  #: in the pane's plane, square to the rail


@dataclass(frozen=True, slots=True)
class Mount:
    """Where bolts go through a rail."""

    leg: Leg
    across_mm: float  #: from the outside of the other leg
    edge_mm: float  #: to the free edge of this leg


def face_mm(rail: Rail, bead: Bead, pane: Pane) -> float:
    """Height of the pane's face above the outside of the seat. [mm]"""
    return rail.wall_mm + bead.glue_line_mm + pane.sheet.nominal_mm


@lru_cache(maxsize=2048)
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


def judge_mount(rail: Rail, place: Mount | None, hold: Hold, family: Family) -> tuple[Check, ...]:
    """One M6 A2-70 at each bracket, and the leg it goes through."""
    if place is None:
        return (_no_room(rail),)
    upright = place.leg == "upright"
    pull, push = (hold.sideways_n, hold.across_n) if upright else (hold.across_n, hold.sideways_n)
    return (
        _side_check(rail, M6, place, push, family),
        _pull_check(M6, place, pull, family),
        _both_check(M6, (pull, push), family),
        _through_check(rail, M6, pull, family),
        _leg_check(rail, place, pull, family),
    )


def judge_slope(
    rail: Rail, place: Mount | None, hold: Hold, slope_n: float, *, runs_up: bool, family: Family
) -> tuple[Check, ...]:
    """One bolt under what goes down the slope there, as if at once with the most across and sideways."""
    if place is None or slope_n <= 0 or (place.leg == "upright" and not runs_up):
        return ()
    upright = place.leg == "upright"
    pull, push = (hold.sideways_n, hold.across_n) if upright else (hold.across_n, hold.sideways_n)
    pushed = math.hypot(push, slope_n) if runs_up else push + slope_n
    asce, en = "Aluminum Design Manual J.3, 2 d t Ftu/1.95", "EN 1999-1-1 table 8.5"
    side = Check(
        f"bracket bolt {M6.name} pushed down the slope",
        pushed,
        bolt_limit_n(rail, M6, place.edge_mm, family),
        "N",
        asce if family == "ASCE" else en,
        "Take a thicker rail, or a shorter one that needs no slots.",
        "frame",
    )
    rule = f"bracket bolt {M6.name} pushed down the slope and pulled"
    return side, together_check(rule, M6, (pull, pushed), family)


def _both_check(bolt: Bolt, forces_n: tuple[float, float], family: Family) -> Check:
    rule = f"bracket bolt {bolt.name} pulled and pushed"
    return together_check(rule, bolt, forces_n, family)


def together_check(rule: str, bolt: Bolt, forces_n: tuple[float, float], family: Family) -> Check:
    """A bolt pulled and pushed at once."""
    pull, push = forces_n[0] / pull_limit_n(bolt, family), forces_n[1] / shear_limit_n(bolt, family)
    used = math.hypot(pull, push) if family == "ASCE" else max(push + pull / 1.4, pull)
    source = "Aluminum Design Manual J.3, AISC 360 J3.7" if family == "ASCE" else "EN 1993-1-8 table 3.4"
    return Check(rule, used, 1.0, "-", source, "Use more brackets, or a larger bolt.", "frame")


def through_limit_n(bolt: Bolt, wall_mm: float, strength_mpa: float | None, family: Family) -> float | None:
    """Pull at which a nut or head shears its ring out of a wall. [N]"""
    if strength_mpa is None:
        return None
    ring = 0.6 * math.pi * NUT_SHARE * bolt.diameter_mm * wall_mm
    return ring * strength_mpa / (OMEGA_RUPTURE if family == "ASCE" else GAMMA_M2)


def pull_limit_n(bolt: Bolt, family: Family) -> float:
    """Tension a bolt may bear. [N]"""
    strength = bolt.rupture_mpa * bolt.area_mm2
    return 0.75 * strength / 2.34 if family == "ASCE" else 0.9 * strength / GAMMA_M2


def _no_room(rail: Rail) -> Check:
    source = "geometry: washer, edge and pane need room"
    cure = "Take a rail with a higher upright or a wider seat."
    return Check("room for the bracket bolt", rail.upright_mm, None, "mm", source, cure, "frame")


def _side_check(rail: Rail, bolt: Bolt, place: Mount, push_n: float, family: Family) -> Check:
    limit = bolt_limit_n(rail, bolt, place.edge_mm, family)
    asce, en = "Aluminum Design Manual J.3, 2 d t Ftu/1.95", "EN 1999-1-1 table 8.5"
    cure = "Use more brackets, two bolts to a bracket, or a thicker rail."
    source = asce if family == "ASCE" else en
    rule = f"bracket bolt {bolt.name} pushed in the {place.leg}"
    return Check(rule, push_n, limit, "N", source, cure, "frame")


def _pull_check(bolt: Bolt, place: Mount, pull_n: float, family: Family) -> Check:
    source = "Aluminum Design Manual J.3, tension" if family == "ASCE" else "EN 1993-1-8 table 3.4, tension"
    limit = pull_limit_n(bolt, family)
    cure = "Use more brackets or two bolts to a bracket."
    return Check(
        f"bracket bolt {bolt.name} pulled in the {place.leg}", pull_n, limit, "N", source, cure, "frame"
    )


def _through_check(rail: Rail, bolt: Bolt, pull_n: float, family: Family) -> Check:
    limit = through_limit_n(bolt, rail.wall_mm, rupture_mpa(rail.alloy, family, rail.wall_mm), family)
    asce, en = "shear at rupture round the nut, 0.6 Ftu/1.95", "EN 1999-1-1 table 8.5, Bp"
    cure = "Use more brackets, a large washer, or a thicker rail."
    source = asce if family == "ASCE" else en
    return Check("bracket bolt through the rail's wall", pull_n, limit, "N", source, cure, "frame")


def _leg_check(rail: Rail, place: Mount, pull_n: float, family: Family) -> Check:
    """Bending of the leg that the bolt pulls at."""
    lever = place.across_mm - rail.wall_mm
    moment = pull_n * (lever / 2 if rail.profile == "tube" else lever)
    stress = 6 * moment / ((2 * lever + WASHER_MM) * rail.wall_mm**2)
    limit = bending_limit_mpa(rail.alloy, family, rail.wall_mm)
    cure = "Use more brackets or a thicker rail."
    rule = "seat bending at a bracket"
    if place.leg == "upright":
        rule = "upright bending at a bracket"
    return Check(rule, stress, limit, "MPa", bending_source(family), cure, "frame")
