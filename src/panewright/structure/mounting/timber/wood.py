"""Screws or bolts that hold a bracket to timber: pull, side load, both together, and the room they need.

Cases: wind lifting, wind pressing, snow with own weight, own weight alone for years; each pushes along the
timber, down the slope and by the rail that the bracket holds sideways. That load may run across the grain,
the weaker way. A through bolt passes the whole timber and pulls by its washer. Pressed down, the bracket's
foot lies on the timber across its grain.

What the timber itself bears, and what carries it, is not looked at.

[N] NDS 2018 10.2.3, 12.1.4, 12.4.1, 12.5.1 (recalled). [E] EN 1995-1-1 8.5, 8.7 and tables 8.4, 8.6
    (recalled).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from panewright.check import Check
from panewright.climate.site import Family
from panewright.frame.metals import metal
from panewright.frame.metals.aluminium import GAMMA_M2
from panewright.frame.support.bracket import Bracket
from panewright.frame.support.timber import Timber
from panewright.frame.support.wood_screw import WoodScrew
from panewright.structure.mounting.bracket import pull_n
from panewright.structure.mounting.forces import BracketForces
from panewright.structure.mounting.timber import johansen, lateral, withdrawal
from panewright.structure.mounting.timber.foot import judge_foot
from panewright.structure.mounting.timber.withdrawal import Lasting

WASHER_MM = 2.0  #: under the head; common practice
_GRAIN_DEG = 90.0
_OMEGA_BOLT = 2.34
_CURE = "Take longer, thicker or more screws, a denser timber, or more brackets."


@dataclass(frozen=True, slots=True)
class Screwed:
    """A bracket, its fasteners, and the timber they go into."""

    family: Family
    bracket: Bracket
    screw: WoodScrew
    screws: int
    timber: Timber
    wet: bool
    depth_mm: float
    width_mm: float

    @property
    def bolt(self) -> bool:
        """Whether it passes through the timber."""
        return self.screw.kind == "bolt"

    @property
    def in_wood_mm(self) -> float:
        """Length in the timber, tip included. [mm]"""
        under_head = self.screw.length_mm - self.bracket.wall_mm - WASHER_MM
        return self.depth_mm if self.bolt else max(0.0, under_head)

    @property
    def covered(self) -> bool:
        """Whether the family knows both the screw and the timber."""
        return self.screw.made_for(self.family) and self.timber.family == self.family

    @property
    def hole_mm(self) -> float:
        """In the bracket. [mm]"""
        return self.screw.diameter_mm + 1.0


def judge_wood(joint: Screwed, forces: BracketForces) -> tuple[Check, ...]:
    """Every rule of the fasteners in one bracket."""
    lifting = pull_n(joint.bracket, forces.up_n, forces.pushed_up_n)
    snow = pull_n(joint.bracket, 0.0, forces.pushed_snow_n)
    rest = pull_n(joint.bracket, 0.0, forces.pushed_rest_n)
    return (
        *(() if joint.covered else (_standard(joint),)),
        _pull(joint, lifting),
        _tension(joint, lifting),
        _side(joint, max(forces.pushed_up_n, forces.pushed_down_n)),
        max(_in_wind(joint, forces, lifting), key=lambda check: check.utilisation),
        _both(joint, snow, forces.pushed_snow_n, "snow"),
        _both(joint, rest, forces.pushed_rest_n, "own weight"),
        judge_foot(joint.bracket, joint.timber, forces, family=joint.family, wet=joint.wet),
        *_room(joint),
    )


def _in_wind(joint: Screwed, forces: BracketForces, lifting_n: float) -> tuple[Check, Check]:
    """Lifted, and pressed: then the rail's sideways push alone tilts the bracket."""
    tilting = pull_n(joint.bracket, 0.0, forces.pushed_down_n)
    return (
        _both(joint, lifting_n, forces.pushed_up_n, "wind"),
        _both(joint, tilting, forces.pushed_down_n, "wind"),
    )


def pull_limit_n(joint: Screwed, lasting: Lasting) -> float | None:
    """What all fasteners of a bracket bear along themselves; None where nothing covers them. [N]"""
    if not joint.covered:
        return None
    return (_asce_pull_n if joint.family == "ASCE" else _en_pull_n)(joint, lasting)


def _asce_pull_n(joint: Screwed, lasting: Lasting) -> float:
    if joint.bolt:  # no C_D across the grain
        wet = withdrawal.C_M_WET_ACROSS if joint.wet else 1.0
        area = withdrawal.washer_area_mm2(joint.screw.washer_mm, joint.hole_mm)
        return joint.screws * joint.timber.across_mpa * wet * area
    one = withdrawal.asce_withdrawal_n(joint.screw, joint.timber, joint.in_wood_mm)
    return joint.screws * one * withdrawal.asce_factor(lasting, joint.wet)


def _en_pull_n(joint: Screwed, lasting: Lasting) -> float | None:
    if not joint.bolt and not withdrawal.en_covers(joint.screw.diameter_mm):
        return None
    factor = withdrawal.en_factor(lasting, joint.wet)
    if joint.bolt:
        one = withdrawal.en_washer_n(joint.screw.washer_mm, joint.hole_mm, joint.timber.across_mpa)
        return joint.screws * one * factor
    thread = min(joint.screw.thread_mm, joint.in_wood_mm)
    one = withdrawal.en_withdrawal_n(joint.screw.diameter_mm, thread, joint.timber.density_kg_m3)
    return float(joint.screws**0.9) * one * factor


def side_limit_n(joint: Screwed, lasting: Lasting) -> float | None:
    """What all fasteners of a bracket bear across themselves. [N]"""
    if not joint.covered or joint.in_wood_mm <= 0:
        return None if not joint.covered else 0.0
    if joint.family == "ASCE":
        one = _asce_side_n(joint)
        return None if one is None else joint.screws * one * withdrawal.asce_factor(lasting, joint.wet)
    return joint.screws * _en_side_n(joint) * withdrawal.en_factor(lasting, joint.wet)


def _asce_side_n(joint: Screwed) -> float | None:
    """Reference Z of one, by the root; the tip counts half."""
    screw, wood = joint.screw, joint.timber
    plate = metal.rupture_mpa(joint.bracket.metal, "ASCE", joint.bracket.wall_mm)
    if plate is None:
        return None
    dowel = lateral.Dowel(
        screw.diameter_mm,
        screw.root_mm,
        screw.bending_yield_mpa,
        main_mm=max(1.0, joint.in_wood_mm - screw.tip_mm / 2),
        side_mm=joint.bracket.wall_mm,
        main_mpa=lateral.bearing_mpa(wood.gravity, screw.diameter_mm, _GRAIN_DEG),
        side_mpa=(1.375 if metal.is_steel(joint.bracket.metal) else 1.25) * plate,
    )
    return lateral.lateral_n(dowel, _GRAIN_DEG)


def _en_side_n(joint: Screwed) -> float:
    """F_v,Rk of one under a thin plate, no rope; thick plates of steel only are a matter of 8.2.3."""
    screw = joint.screw
    diameter = screw.diameter_mm if joint.bolt else 1.1 * screw.root_mm
    thin = johansen.Joint(
        diameter,
        johansen.yield_moment_nmm(screw.rupture_mpa, diameter),
        joint.in_wood_mm,
        johansen.embedding_mpa(joint.timber.density_kg_m3, screw.diameter_mm, _GRAIN_DEG),
        joint.bracket.wall_mm,
    )
    return johansen.thin_n(thin)


def _source(joint: Screwed, american: str, european: str) -> str:
    return f"NDS 2018 {american}" if joint.family == "ASCE" else f"EN 1995-1-1 {european}"


def _standard(joint: Screwed) -> Check:
    """A screw or timber of the other family is never covered."""
    return Check(
        "screw and timber known to the rule book",
        1.0,
        None,
        "-",
        _source(joint, "12.1.4, table 12.3.3A", "8.7, EN 14592, EN 338"),
        f"Take a screw and a timber that the {joint.family} rules list.",
        "structure",
    )


def _pull(joint: Screwed, demand_n: float) -> Check:
    limit = pull_limit_n(joint, "wind")
    source, cure = _source(joint, "12.2.1, 12.2.2, C_D 1.6", "8.7.2, kmod of wind"), _CURE
    if limit is None and joint.covered:
        source = "EN 1995-1-1 8.7.2(4) holds from 6 to 12 mm; (5) asks for a tested strength of the screw"
        cure = "Take a screw 6 to 12 mm thick."
    return Check("screws pulled out of the timber", demand_n, limit, "N", source, cure, "structure")


def _tension(joint: Screwed, demand_n: float) -> Check:
    """The screw's own metal, at its root."""
    area = 0.785398163397448 * (joint.screw.root_mm**2)
    strength = joint.screws * joint.screw.rupture_mpa * area
    american = joint.family == "ASCE"
    limit = 0.75 * strength / _OMEGA_BOLT if american else 0.9 * strength / GAMMA_M2
    source = "NDS 2018 10.2.3; 0.75 Fu/2.34" if american else "EN 1993-1-8 table 3.4 on the root"
    return Check("screws torn in two", demand_n, limit, "N", source, _CURE, "structure")


def _side(joint: Screwed, demand_n: float) -> Check:
    source = _source(joint, "12.3.1, yield modes", "8.2.3, thin plate, no rope")
    limit = side_limit_n(joint, "wind")
    return Check("screws pushed sideways in the timber", demand_n, limit, "N", source, _CURE, "structure")


def _both(joint: Screwed, pulled_n: float, pushed_n: float, lasting: Lasting) -> Check:
    source = _source(joint, "12.4.1", "8.28")
    pull, side = pull_limit_n(joint, lasting), side_limit_n(joint, lasting)
    known = pull is not None and side is not None
    used = _together(joint)(pulled_n, pushed_n, pull or 0.0, side or 0.0) if known else 0.0
    limit = 1.0 if known else None
    return Check(f"screws pulled and pushed, {lasting}", used, limit, "-", source, _CURE, "structure")


def _together(joint: Screwed) -> Callable[[float, float, float, float], float]:
    """How pull and side load act together."""
    if joint.bolt:
        return _sum_of_shares
    return lateral.together if joint.family == "ASCE" else johansen.together


def _sum_of_shares(pull: float, side: float, pull_limit: float, side_limit: float) -> float:
    """Bolts: no rule in either book, so the shares are added, the safe side."""
    if min(pull_limit, side_limit) <= 0:
        return float("inf")
    return pull / pull_limit + side / side_limit


def _room(joint: Screwed) -> tuple[Check, ...]:
    """Lengths and distances in the timber and on the bracket."""
    edge = _source(joint, "table 12.5.1C", "8.5.1.1, 8.7.2")
    d = joint.screw.diameter_mm
    within = ("geometry", joint.in_wood_mm, joint.depth_mm)
    return (
        _least_check("screw's way within the timber", *within),
        _least_check("edge of the timber beside the screw", edge, 4 * d, joint.width_mm / 2),
        *(_bolt_room(joint) if joint.bolt else _screw_room(joint)),
        *(_apart(joint) if joint.screws > 1 else ()),
    )


def _screw_room(joint: Screwed) -> Iterator[Check]:
    """A screw has to be deep enough, and for EN the timber thick."""
    screw, american = joint.screw, joint.family == "ASCE"
    times = 4 if screw.kind == "lag screw" else 6
    least = times * screw.diameter_mm
    there = joint.in_wood_mm - screw.tip_mm if american else min(screw.thread_mm, joint.in_wood_mm)
    source = _source(joint, "12.1.4, 12.1.5", "8.7.2(3)")
    yield _least_check("screw deep enough in the timber", source, least, there)
    if not american:
        thick = 12 * screw.diameter_mm
        yield _least_check("timber thick enough for the screw", "EN 1995-1-1 8.7.2", thick, joint.depth_mm)


def _bolt_room(joint: Screwed) -> Iterator[Check]:
    """Timber, bracket, two washers and a nut lie under the head."""
    needed = joint.depth_mm + joint.bracket.wall_mm + 2 * WASHER_MM + joint.screw.diameter_mm
    source = "geometry: washers and nut"
    yield _least_check("bolt long enough for the timber", source, needed, joint.screw.length_mm)


def _apart(joint: Screwed) -> Iterator[Check]:
    """Screws of one bracket lie in a line along it, 1.5 diameters from its ends."""
    d, american = joint.screw.diameter_mm, joint.family == "ASCE"
    there = (joint.bracket.length_mm - 3 * d) / (joint.screws - 1)
    source = _source(joint, "table 12.5.1B", "8.7.2")
    yield _least_check("screws apart on the bracket", source, (4 if american else 7) * d, there)


def _least_check(rule: str, source: str, needed_mm: float, there_mm: float) -> Check:
    cure = "Take another screw, a larger timber or a longer bracket."
    return Check(rule, needed_mm, there_mm, "mm", source, cure, "structure")
