"""The corner clip itself, held against what its corner passes on.

At the first fastener, where the leg is weakened by its hole and every moment is largest. Width w there is
twice the hole's distance d to the clip's nearer edge, less the hole h: what lies beyond on the other side is
not counted. With the thickness t, N along, V across, R apart, T twist, M tilt, Q turn, x from the rail's end
to the fastener, m from the fastener to the middle of the other leg:

    pull   (N + 2 (Q'-Q)/c) / (w - h) t   c: the seat inside the upright; the mitre butts in the middle of it
    flat   6 w (M + V x) / t (w^3 - h^3)  bent as it lies on the rail, elastic
    bent   4 (Q + R m / 2) / (w - h) t^2  unbent at its heel, plastic [P]
    shear  1.5 V, R / (w - h) t + 2 T / (w - h) t^2, twisted plastic

    sqrt((pull + flat + bent)^2 + 3 shear^2)  no more than what the metal may bear in bending

The heel itself has the same moments or less, and no hole: what holds at the fastener holds there.

R unbends a leg that is held flat at its fastener and kept square at its heel by the other one: half of R m at
each (the first mode of a T-stub, EN 1993-1-8 6.2.4, EN 1999-1-1 annex B, recalled). Q' is the turn of a
corner that cannot turn; a clip gives way, and gets of it

    Q = Q' k F / (1 + k F),  k = E w t^3 / 12 / 2 l,  F = (a + b) / 2 E I

k the stiffness of both legs from the heel to the washers, l each; F how far the ends of both rails turn under
a moment in all corners, free between them and free to move (the softest they can be, which gives the clip
most); E, w, I the clip's and the rails' own. Statics: the turn of a spring between two hinged rails. What it
does not get goes through the mitre's faces as they butt, where the clip is the tie. A clip that slips or
opens gets less, and ties more: both ends are reckoned, the worse is told. Its fasteners bear the same; Q
pries the leg off them, the tie shears them along it.

In the seat the clip lies flat: the turn and R bend it as it lies, the tilt and V unbend it, whole: nothing
there keeps its heel square. Not counted: faces that butt, friction, the bead.

[P] rectangles bent about their flat: AISC 360 F11 (1.6 at most), Aluminum Design Manual F.4 (1.5), EN
    1993-1-1 and EN 1999-1-1 6.2.5, class 1 (1.5): all recalled. Strengths as in frame/metals.
[S] holes apart: 2.5 diameters, Aluminum Design Manual J.3.4; 2.2 holes, EN 1999-1-1 table 8.2; of rivets 3
    diameters, both (all recalled).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from panewright.check import Check
from panewright.climate.site import Family
from panewright.frame.joining.fastener import Fastener, least_edge_mm, rule_source
from panewright.frame.joining.rivet import Rivet
from panewright.frame.metals import aluminium
from panewright.frame.metals.metal import bending_limit_mpa, bending_source, young_pa
from panewright.frame.rail import Rail
from panewright.frame.shape.section import section
from panewright.frame.support.clip import Clip
from panewright.structure.corners.force import CornerForce
from panewright.structure.drilling.mount import Leg

Judged = Iterable[Iterable[Check]]  # of the clip itself, then of its fasteners

_WASHER = 2.0  # of the diameter it goes round, at least; ISO 7089
_CURE = "Take a thicker or wider corner clip, a rail with a higher upright, lapped corners, or weld them."


@dataclass(frozen=True, slots=True)
class Clipped:
    """A clip in its corner, as the rail sees it that its leg lies on."""

    clip: Clip
    rail: Rail
    fastener: Fastener
    leg: Leg
    from_end_mm: float  #: of the first fastener, from the rail's end
    edge_mm: float  #: from a hole's middle to the clip's nearer edge
    toe_mm: float  #: from the second hole to the clip's end
    apart_mm: float  #: of both holes
    room_mm: float  #: for the clip's width, on the leg
    sides_mm: float  #: long and short rail together

    @property
    def net_mm(self) -> float:
        """Width on both sides of a hole. [mm]"""
        return max(0.0, 2 * self.edge_mm - self.fastener.hole_mm)

    @property
    def lever_mm(self) -> float:
        """From the first fastener to the middle of the other leg. [mm]"""
        return max(1.0, self.from_end_mm - self.rail.wall_mm - self.clip.wall_mm / 2)


def judge_clip(clipped: Clipped, forces: Iterable[CornerForce], family: Family) -> tuple[Check, ...]:
    """The clip in every case, its room on the rail, and its holes."""
    return tuple(clip_checks(clipped, forces, family))


def clip_checks(clipped: Clipped, forces: Iterable[CornerForce], family: Family) -> Iterator[Check]:
    """The same one by one: most clips of a shelf fail the first, and the others are not reckoned then."""
    metal, wall = clipped.clip.material, clipped.clip.wall_mm
    limit, source = bending_limit_mpa(metal, family, wall), bending_source(metal, family)
    for force in forces:
        yield Check(
            f"corner clip at its hole, {force.case}",
            clip_stress_mpa(clipped, force, family),
            limit,
            "MPa",
            f"{source}; rectangle bent plastic",
            _CURE,
            "frame",
        )
    yield _room_check(clipped)
    yield from _hole_checks(clipped, family)


def clip_stress_mpa(clipped: Clipped, force: CornerForce, family: Family) -> float:
    """Comparison stress at the first fastener. [MPa]"""
    return max(_stress_mpa(clipped, borne) for borne in ways(clipped, force, family))


def _stress_mpa(clipped: Clipped, borne: CornerForce) -> float:
    wide, hole, thick = 2 * clipped.edge_mm, clipped.fastener.hole_mm, clipped.clip.wall_mm
    net = clipped.net_mm
    if not net:
        return math.inf
    flat_nmm, bent_nmm = _moments_nmm(clipped, borne)
    pull = borne.pull_n / (net * thick)
    flat = 6 * wide * flat_nmm / (thick * (wide**3 - hole**3))
    bent = 4 * bent_nmm / (net * thick**2)
    sheared = 1.5 * math.hypot(borne.shear_n, borne.apart_n) / (net * thick)
    twisted = 2 * borne.twist_nmm / (net * thick**2)
    return math.hypot(pull + flat + bent, math.sqrt(3) * (sheared + twisted))


def ways(clipped: Clipped, force: CornerForce, family: Family) -> tuple[CornerForce, CornerForce]:
    """What clip and fasteners bear of a corner: as stiff as they may be, and as loose."""
    if clipped.leg == "seat" or not force.turn_nmm:  # nothing to be kept or let go
        return force, force
    kept, half = kept_turn_nmm(clipped, force, family), (clipped.rail.seat_mm - clipped.rail.wall_mm) / 2
    stiff, loose = (force.turned(turn, force.pull_n + (force.turn_nmm - turn) / half) for turn in (kept, 0.0))
    return stiff, loose


def _moments_nmm(clipped: Clipped, borne: CornerForce) -> tuple[float, float]:
    """Moments that bend the leg as it lies, and off what it lies on. [N mm]"""
    lever = clipped.from_end_mm
    if clipped.leg == "upright":
        unbent = borne.turn_nmm + borne.apart_n * clipped.lever_mm / 2
        return borne.tilt_nmm + borne.shear_n * lever, unbent
    return borne.turn_nmm + borne.apart_n * lever, borne.tilt_nmm + borne.shear_n * lever


def kept_turn_nmm(clipped: Clipped, force: CornerForce, family: Family) -> float:
    """What of the turn of a stiff corner a clip gets that gives way. [N mm]"""
    clip = clipped.clip
    free = max(1.0, clipped.lever_mm - _WASHER * clipped.fastener.diameter_mm / 2)  # of each leg
    second = clip.wide_mm * clip.wall_mm**3 / 12
    stiff = young_pa(clip.material, family) * 1e-6 * second / (2 * free)
    shape = section(clipped.rail)
    free_iy = shape.iy_mm4 - shape.ixy_mm4**2 / shape.ix_mm4
    gives = clipped.sides_mm / (2 * aluminium.young_pa(family) * 1e-6 * free_iy)
    return force.turn_nmm * stiff * gives / (1 + stiff * gives)


def _room_check(clipped: Clipped) -> Check:
    return Check(
        "room for the corner clip on its rail",
        clipped.clip.wide_mm,
        clipped.room_mm,
        "mm",
        "geometry: the leg beside the pane or the bead",
        "Take a narrower clip, a rail with a higher upright, or weld the corners.",
        "frame",
    )


def _hole_checks(clipped: Clipped, family: Family) -> tuple[Check, Check]:
    fastener = clipped.fastener
    source = rule_source(fastener, family)
    return (
        Check(
            "corner clip's holes clear of its edges",
            least_edge_mm(fastener, family),
            min(clipped.edge_mm, clipped.toe_mm),
            "mm",
            f"{source}, edge distance",
            "Take a thinner fastener, a wider clip, or a rail with a higher upright.",
            "frame",
        ),
        Check(
            "corner clip's holes apart",
            least_apart_mm(fastener, family),
            clipped.apart_mm,
            "mm",
            f"{source}, spacing",
            "Take a thinner fastener.",
            "frame",
        ),
    )


def least_apart_mm(fastener: Fastener, family: Family) -> float:
    """Nearest that two holes may be, middle to middle. [mm]  [S]"""
    if isinstance(fastener, Rivet):
        return 3.0 * fastener.diameter_mm
    return 2.5 * fastener.diameter_mm if family == "ASCE" else 2.2 * fastener.hole_mm


def choose_clip(clips: tuple[Clip, ...], judge: Callable[[Clip], Judged]) -> Clip:
    """The lightest with which the corner holds; else the lightest that holds itself; else the nearest.

    `judge` gives the checks of the clip itself first, then those of its fasteners; these are asked only of a
    clip that holds itself.
    """
    ordered = sorted(clips, key=lambda clip: clip.mass_kg)
    alone: Clip | None = None
    for clip in ordered:
        parts = iter(judge(clip))
        if _hold(next(parts)):
            if all(map(_hold, parts)):
                return clip
            alone = alone or clip
    return alone or min(ordered, key=lambda clip: _far(tuple(next(iter(judge(clip))))))


def _hold(checks: Iterable[Check]) -> bool:
    return all(check.passed for check in checks)


def _far(checks: tuple[Check, ...]) -> tuple[int, float]:
    """Checks that fail for want of room or edge, then the worst of the others."""
    geometry = sum(not check.passed for check in checks if check.unit == "mm")
    return geometry, max((check.utilisation for check in checks if check.unit != "mm"), default=0.0)
