"""A corner of the frame, screwed or riveted through a clip, or welded, held against what it passes.

Screwed: each rail is joined to the clip by one fastener through the leg that has room. In the upright it
is sheared by what goes across the pane and by what goes in its plane; in the seat what goes across the
pane pulls it. Mitred and lapped corners differ in how they are sawn, not in what their fasteners bear.
They are hinges: the bead keeps the frame square. A moment that is handed over in spite of that pulls the
fastener with the rest of the clip's leg as its lever.

Welded: a weld round the upright's mitre and the seat's, ground flush:

    t = V/(h a)    s = M/(a h^2/6) + R/(a c^2/6) + N/(a (h + c))    sqrt(s^2 + 3 t^2)

with throat a, upright h and c = sqrt 2 times the seat; and the rail's own bending in metal the heat has
softened.

The sum of shares in shear and pull is held under one: on the safe side of EN 1993-1-8 table 3.4, which
lets the pull count for less (read), and of the circle that tests give.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from panewright.check import Check
from panewright.climate.site import Family
from panewright.frame.fastener import (
    Fastener,
    Grip,
    least_edge_mm,
    pull_limit_n,
    rule_source,
    shear_limit_n,
)
from panewright.frame.rail import Rail
from panewright.frame.section import section
from panewright.frame.wall import Wall, aluminium_wall, stainless_wall
from panewright.frame.weld import THROAT_SHARE, rail_limit_mpa, weld_limit_mpa
from panewright.structure.corner_force import CornerForce
from panewright.structure.mount import Leg

Corner = Literal["mitred", "lapped", "welded"]
Clip = Literal["stainless", "aluminium"]

CLIP_LEG_MM, CLIP_WIDE_MM = 35.0, 16.0  #: of a clip; common practice, as on the shelf
CLIP_WALL_MM: dict[Clip, float] = {"stainless": 2.0, "aluminium": 3.0}  #: as on the shelf
_CURE = "Take a larger or a stainless fastener, a thicker rail, or weld the corners."
_WELD_CURE = "Take a thicker or stronger rail, or corners with clips."


@dataclass(frozen=True, slots=True)
class Fastened:
    """A corner with a clip: what joins each rail to it, and where."""

    rail: Rail
    fastener: Fastener
    clip: Clip
    leg: Leg
    edge_mm: float  #: from the hole's middle to the nearest edge of the rail
    from_end_mm: float  #: from the rail's end


def judge_fastened(corner: Fastened, forces: tuple[CornerForce, ...], family: Family) -> tuple[Check, ...]:
    """The fastener in every case, and how near it sits to an edge."""
    grip = _grip(corner, family)
    checks = [check for force in forces for check in _case_checks(corner, grip, force, family)]
    edge = Check(
        "corner fastener clear of the edge",
        least_edge_mm(corner.fastener, family),
        min(corner.edge_mm, corner.from_end_mm),
        "mm",
        f"{rule_source(corner.fastener, family)}, edge distance",
        "Take a thinner fastener, or a rail with a deeper upright.",
        "frame",
    )
    return (*checks, edge)


def _grip(corner: Fastened, family: Family) -> Grip | None:
    near = aluminium_wall(corner.rail.alloy, corner.rail.wall_mm, family)
    far = _clip_wall(corner.clip, family)
    if near is None or far is None:
        return None
    return Grip(near, far, min(corner.edge_mm, corner.from_end_mm))


def _clip_wall(clip: Clip, family: Family) -> Wall | None:
    """Clips are cut from soft stainless sheet or from 6063-T6 angle."""
    if clip == "stainless":
        return stainless_wall(CLIP_WALL_MM[clip])
    return aluminium_wall("6063-T6", CLIP_WALL_MM[clip], family)


def fastener_loads(corner: Fastened, force: CornerForce) -> tuple[float, float]:
    """Shear and pull of the fastener in one case. [N]"""
    lever = CLIP_LEG_MM - min(corner.from_end_mm, CLIP_LEG_MM - corner.fastener.diameter_mm)
    pried = (force.bend_nmm + force.rack_nmm) / lever
    if corner.leg == "upright":
        return math.hypot(force.shear_n, force.pull_n), pried
    return force.pull_n, force.shear_n + pried


def _case_checks(
    corner: Fastened, grip: Grip | None, force: CornerForce, family: Family
) -> tuple[Check, ...]:
    shear, pull = fastener_loads(corner, force)
    fastener, source = corner.fastener, rule_source(corner.fastener, family)
    most_shear = None if grip is None else shear_limit_n(fastener, grip, family)
    most_pull = None if grip is None else pull_limit_n(fastener, grip, family)
    name = fastener.name
    checks = []
    if shear > 0:
        rule = f"corner {name} in shear, {force.case}"
        checks.append(Check(rule, shear, most_shear, "N", source, _CURE, "frame"))
    if pull > 0:
        rule = f"corner {name} pulled, {force.case}"
        checks.append(Check(rule, pull, most_pull, "N", source, _CURE, "frame"))
    if shear > 0 and pull > 0:
        rule = f"corner {name} sheared and pulled, {force.case}"
        shares = shear / most_shear + pull / most_pull if most_shear and most_pull else math.inf
        limit = 1.0 if most_shear and most_pull else None
        checks.append(Check(rule, shares, limit, "-", f"{source}; shares summed", _CURE, "frame"))
    return tuple(checks)


def judge_welded(rail: Rail, forces: tuple[CornerForce, ...], family: Family) -> tuple[Check, ...]:
    """The weld and the softened rail beside it, in every case."""
    return tuple(check for force in forces for check in _weld_checks(rail, force, family))


def weld_stress_mpa(rail: Rail, force: CornerForce) -> float:
    """Comparison stress in the throat. [MPa]"""
    throat, high = THROAT_SHARE * rail.wall_mm, rail.upright_mm
    mitre = math.sqrt(2) * rail.seat_mm
    shear = force.shear_n / (high * throat)
    bent = 6 * force.bend_nmm / (throat * high**2) + 6 * force.rack_nmm / (throat * mitre**2)
    return math.hypot(bent + force.pull_n / (throat * (high + mitre)), math.sqrt(3) * shear)


def softened_stress_mpa(rail: Rail, force: CornerForce) -> float:
    """Bending and pull in the rail beside the weld. [MPa]"""
    shape = section(rail)
    bent = force.bend_nmm / shape.free_sx_mm3 + force.rack_nmm / shape.sy_mm3
    return bent + force.pull_n / shape.area_mm2


def _weld_checks(rail: Rail, force: CornerForce, family: Family) -> tuple[Check, ...]:
    asce, en = "Aluminum Design Manual, welded strengths", "EN 1999-1-1 tables 3.2b, 8.8"
    source = asce if family == "ASCE" else en
    stress, limit = weld_stress_mpa(rail, force), weld_limit_mpa(rail.alloy, family)
    weld = Check(f"corner weld, {force.case}", stress, limit, "MPa", source, _WELD_CURE, "frame")
    stress, limit = softened_stress_mpa(rail, force), rail_limit_mpa(rail.alloy, family)
    if stress <= 0:
        return (weld,)
    rule = f"rail beside the corner weld, {force.case}"
    return weld, Check(rule, stress, limit, "MPa", source, _WELD_CURE, "frame")
