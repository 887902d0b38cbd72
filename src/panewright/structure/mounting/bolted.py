"""Brackets bolted to steel or aluminium: to the head of a post, the stand of ballast, or steel that is there.

The bolt is pulled, with the prying of the bracket in it, and pushed sideways; the wall it goes through is
pressed by its side and could let the head through. The wall behind is looked at only for that: what else it
bears is not known here.

    ASCE  (V/Vmax)^2 + (T/Tmax)^2 <= 1      EN  V/Vmax + T/(1.4 Tmax) <= 1

[M] Aluminum Design Manual J.3, AISC 360 J3.7 (recalled). [E] EN 1993-1-8 table 3.4 (recalled), punching Bp
    = 0.6 pi dm t fu.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from panewright.check import Check
from panewright.climate.site import Family
from panewright.frame.joining.bolt import M6, Bolt, bearing_n
from panewright.frame.metals.aluminium import GAMMA_M2, OMEGA_RUPTURE
from panewright.frame.metals.metal import Metal, rupture_mpa
from panewright.frame.support.bracket import Bracket
from panewright.structure.drilling.mount import through_limit_n, together_check
from panewright.structure.mounting.bracket import pull_n
from panewright.structure.mounting.forces import BracketForces

M8 = Bolt("M8 A2-70", 8.0, 1.25, 9.0, 450.0, 700.0)  #: hole medium, ISO 273
BOLTS = (M6, M8)
_CURE = "Take a larger bolt, a thicker support, or more brackets."


@dataclass(frozen=True, slots=True)
class Bolted:
    """A bracket bolted to a metal wall by one bolt."""

    family: Family
    bracket: Bracket
    bolt: Bolt
    wall_mm: float
    metal: Metal


def judge_bolted(joint: Bolted, forces: BracketForces) -> tuple[Check, ...]:
    """Bolt and wall, lifted or pushed along the support."""
    pushed_n = max(forces.pushed_down_n, forces.pushed_snow_n)
    lifting = pull_n(joint.bracket, forces.up_n, forces.pushed_up_n)
    tilting = pull_n(joint.bracket, 0.0, pushed_n)
    return (
        _bolt(joint, lifting, forces.pushed_up_n, "lifted"),
        _bolt(joint, tilting, pushed_n, "pushed along the support"),
        _wall(joint, max(lifting, tilting)),
        _bearing(joint, max(pushed_n, forces.pushed_up_n)),
    )


def choose_bolt(joint: Bolted, forces: BracketForces) -> Bolted:
    """The smallest bolt that holds, or the largest there is."""
    each = tuple(Bolted(joint.family, joint.bracket, bolt, joint.wall_mm, joint.metal) for bolt in BOLTS)
    holding = (one for one in each if all(check.passed for check in judge_bolted(one, forces)))
    return next(holding, each[-1])


def _bolt(joint: Bolted, pulled_n: float, pushed_n: float, way: str) -> Check:
    rule = f"bolt to the support, {way}"
    check = together_check(rule, joint.bolt, (pulled_n, pushed_n), joint.family)
    return replace(check, cure=_CURE, room="structure")


def _wall(joint: Bolted, pulled_n: float) -> Check:
    """The head pulled through; the American books leave it to the shear of a cylinder at rupture."""
    strength = rupture_mpa(joint.metal, joint.family, joint.wall_mm)
    limit = through_limit_n(joint.bolt, joint.wall_mm, strength, joint.family)
    source = (
        "shear at rupture round the head, 0.6 Fu/1.95"
        if joint.family == "ASCE"
        else "EN 1993-1-8 table 3.4, Bp"
    )
    return Check("bolt head through the support", pulled_n, limit, "N", source, _CURE, "structure")


def _bearing(joint: Bolted, pushed_n: float) -> Check:
    strength = rupture_mpa(joint.metal, joint.family, joint.wall_mm)
    edge = 2 * joint.bolt.diameter_mm
    limit = None
    if strength is not None and joint.family == "ASCE":
        limit = bearing_n(joint.bolt.diameter_mm, joint.wall_mm, strength, edge) / OMEGA_RUPTURE
    elif strength is not None:
        alpha = min(1.0, edge / (3 * joint.bolt.hole_mm))
        limit = 2.5 * alpha * strength * joint.bolt.diameter_mm * joint.wall_mm / GAMMA_M2
    source = (
        "Aluminum Design Manual J.3, 2 d from the edge"
        if joint.family == "ASCE"
        else "EN 1993-1-8 table 3.4, 2 d from the edge"
    )
    return Check("support pressed by the bolt", pushed_n, limit, "N", source, _CURE, "structure")
