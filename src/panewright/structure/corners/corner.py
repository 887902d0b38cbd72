"""A corner of the frame, screwed or riveted through a clip, or welded, held against what it passes.

Screwed: each rail is joined to the clip by two fasteners through the leg that has room, one behind the other.
They share every force; what acts at the corner also turns their pair, for they sit away from it. Of the
clip's leg, with x from the rail's end to the first, s between them, toe T past both, w twice from the
holes to its nearer edge, in the upright

    shear   the vector sum of along/2 and across/2 + (tilt + across (x + s/2))/s
    pull    (turn + apart T) p/(p^2 + q^2) + twist/(2 w/2),  p = T - x, q = T - x - s

where the leg is pried off about its toe, and off by its edge where the rail twists: half of w is the
lever of both fasteners (derived; contact and screws alone, no clamp). In the seat the fasteners stand
upright: there the turn and what goes apart shear, the tilt and what goes across pry. Mitred and lapped
corners differ in how they are sawn, and in the turn the frame asks of them (space/conditions.py), not in
what their fasteners bear. The clip itself: clip.py.

Welded: a weld round the upright's mitre and the seat's (all round a tube), ground flush:

    t = sqrt((V/(h a))^2 + (R/(c a))^2) + 3 T/((h + c) a^2), of a tube T/(2 h c a)
    s = M/(a h^2/6) + Q/(a c^2/6) + N/(a (h + c)),  sqrt(s^2 + 3 t^2)

with throat a, upright h and c = sqrt 2 times the seat; V across, R apart, N along, T twist, M tilt, Q turn;
and the rail's own bending in metal the heat has softened. Twist as in any open thin section, or Bredt's in a
closed one (any book of strength of materials).

The sum of shares in shear and pull is held under one: on the safe side of EN 1993-1-8 table 3.4, which
lets the pull count for less (read), and of the circle that tests give.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from panewright.check import Check
from panewright.climate.site import Family
from panewright.frame.joining.fastener import (
    Fastener,
    Grip,
    least_edge_mm,
    pull_limit_n,
    rule_source,
    shear_limit_n,
)
from panewright.frame.joining.wall import Wall, aluminium_wall, stainless_wall
from panewright.frame.joining.weld import THROAT_SHARE, rail_limit_mpa, weld_limit_mpa
from panewright.frame.rail import Rail
from panewright.frame.shape.section import section
from panewright.frame.support.clip import Clip
from panewright.structure.corners.force import CornerForce
from panewright.structure.drilling.mount import Leg

Corner = Literal["mitred", "lapped", "welded"]

APART_MM, TOE_MM = 25.0, 10.0  #: from the first fastener to the second, to the clip's end; common practice
_CURE = "Take a larger stainless screw, a thicker rail, lapped corners, or weld them."
_WELD_CURE = "Take a thicker or stronger rail, or corners with clips."


@dataclass(frozen=True, slots=True)
class Fastened:
    """A corner with a clip: what joins each rail to it, and where."""

    rail: Rail
    fastener: Fastener
    clip: Clip
    leg: Leg
    edge_mm: float  #: from the hole's middle to the nearest edge of the rail
    from_end_mm: float  #: of the first of both, from the rail's end
    clip_edge_mm: float = 8.0  #: from the hole's middle to the nearer edge of the clip
    apart_mm: float = APART_MM  #: middle to middle

    @property
    def rail_edge_mm(self) -> float:
        """From the first hole's middle to the nearest edge of the rail, its sawn end among them. [mm]"""
        return min(self.edge_mm, self.clip.from_end_mm)

    @property
    def toe_mm(self) -> float:
        """End of the clip's leg, from the rail's end. [mm]"""
        return self.from_end_mm + self.apart_mm + TOE_MM


def judge_fastened(corner: Fastened, forces: tuple[CornerForce, ...], family: Family) -> tuple[Check, ...]:
    """The fasteners in every case, and how near they sit to an edge."""
    limits = _limits_n(corner, family)
    checks = [check for force in forces for check in _case_checks(corner, limits, force, family)]
    edge = Check(
        "corner fastener clear of the edge",
        least_edge_mm(corner.fastener, family),
        corner.rail_edge_mm,
        "mm",
        f"{rule_source(corner.fastener, family)}, edge distance",
        "Take a thinner fastener, or a rail with a deeper upright.",
        "frame",
    )
    return (*checks, edge)


def _limits_n(corner: Fastened, family: Family) -> tuple[float | None, float | None]:
    """Shear and pull that a fastener bears in its rail and its clip; None where nothing is known. [N]"""
    grip, fastener = _grip(corner, family), corner.fastener
    if grip is None:
        return None, None
    return shear_limit_n(fastener, grip, family), pull_limit_n(fastener, grip, family)


def _grip(corner: Fastened, family: Family) -> Grip | None:
    near = aluminium_wall(corner.rail.alloy, corner.rail.wall_mm, family)
    far = _clip_wall(corner.clip, family)
    if near is None or far is None:
        return None
    return Grip(near, far, min(corner.rail_edge_mm, corner.clip_edge_mm, TOE_MM))


def _clip_wall(clip: Clip, family: Family) -> Wall | None:
    """Clips are cut from soft stainless sheet or from 6061-T6 angle."""
    if clip.metal == "stainless":
        return stainless_wall(clip.wall_mm)
    return aluminium_wall("6061-T6", clip.wall_mm, family)


def fastener_loads(corner: Fastened, force: CornerForce) -> tuple[float, float]:
    """Shear and pull of the fastener worst off in one case. [N]"""
    upright = force.shear_n, force.tilt_nmm, force.apart_n, force.turn_nmm
    seat = force.apart_n, force.turn_nmm, force.shear_n, force.tilt_nmm
    square, spin, off, pry = upright if corner.leg == "upright" else seat
    couple = (spin + square * (corner.from_end_mm + corner.apart_mm / 2)) / corner.apart_mm
    pull = _pried_n(corner, off, pry) + force.twist_nmm / (2 * corner.clip_edge_mm)  # of both
    return math.hypot(force.pull_n / 2, square / 2 + couple), pull


def _pried_n(corner: Fastened, off_n: float, pry_nmm: float) -> float:
    """Pull of the first fastener as the leg turns about its toe; the second has less. [N]"""
    near = corner.apart_mm + TOE_MM
    return (pry_nmm + off_n * corner.toe_mm) * near / (near**2 + TOE_MM**2)


def _case_checks(
    corner: Fastened, limits_n: tuple[float | None, float | None], force: CornerForce, family: Family
) -> tuple[Check, ...]:
    (shear, pull), (most_shear, most_pull) = fastener_loads(corner, force), limits_n
    name, source, checks = corner.fastener.name, rule_source(corner.fastener, family), []
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
    shear = math.hypot(force.shear_n / high, force.apart_n / mitre) / throat + twisted_mpa(rail, force)
    bent = 6 * force.tilt_nmm / (throat * high**2) + 6 * force.turn_nmm / (throat * mitre**2)
    return math.hypot(bent + force.pull_n / (throat * (high + mitre)), math.sqrt(3) * shear)


def twisted_mpa(rail: Rail, force: CornerForce) -> float:
    """Shear of the twist in the throat. [MPa]"""
    throat, mitre = THROAT_SHARE * rail.wall_mm, math.sqrt(2) * rail.seat_mm
    if rail.profile == "tube":
        return force.twist_nmm / (2 * rail.upright_mm * mitre * throat)
    return 3 * force.twist_nmm / ((rail.upright_mm + mitre) * throat**2)


def softened_stress_mpa(rail: Rail, force: CornerForce) -> float:
    """Bending and pull in the rail beside the weld. [MPa]"""
    shape = section(rail)
    bent = force.tilt_nmm / shape.free_sx_mm3 + force.turn_nmm / shape.sy_mm3
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
