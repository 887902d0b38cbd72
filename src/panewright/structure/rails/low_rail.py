"""The rail at the low edge: the pane's weight and the snow come down the slope and bend it in its own plane.

The pane stands on setting blocks, so the pull arrives at a few places. Between what holds it down the slope,
its corners or its brackets, the low rail bends outward, free to move across as well (the softer way, and the
harder stressed). Snow that slides leans on the lip instead, evenly: the worse of both counts for stress.

Blocks stand at the quarter points [Q]. Where the rail is too soft for that they move toward the corners, no
nearer than an eighth of the side or 150 mm [P].

The rail and the bead share the pull. At once the bead takes its part by stiffness, most of it, and is held
against its design stress in shear. The pane's own weight stays for ever: that part is held against the
sealant's dead load. Silicone under more than that creeps, until the rail bears the rest: so for weight and
snow the bead holds its dead load all round and no more, and the rail sags under all else. The weight alone
the rail has to bear with no help.

Not covered: twist of the rail by blocks that stand higher than its shear centre; under the pressure of the
same snow the pane turns the seat the other way.

[Q] a maker's page on setting blocks: quarter points unless an engineer says otherwise (read). [P] an eighth
    of the side, 6 in (recalled). [E] EN 13830: under vertical load length / 500, 3 mm (recalled). [A] glazing
    specifications in America: no more than a quarter of the edge clearance, 1/8 in (recalled).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from panewright.check import Check
from panewright.climate.site import Family
from panewright.frame.metals.aluminium import bending_limit_mpa, bending_source, young_pa
from panewright.frame.rail import Rail
from panewright.frame.shape.section import section
from panewright.glass.pane import Pane
from panewright.seal.sealant import Bead
from panewright.structure.bead.bead import BLOCK_EVERY_MM, Need, block_long_mm, pull_n
from panewright.structure.corners.racking import SHEAR_SHARE
from panewright.structure.drilling.mount import face_mm
from panewright.structure.loads import Loads
from panewright.structure.rails.beam import LineLoad, peaks
from panewright.structure.rails.rails import edge_limit_mm
from panewright.structure.space.bounds import SideFigures
from panewright.structure.space.conditions import bead_spring_mpa
from panewright.structure.space.space_frame import Side, outer_mm
from panewright.units import MM

NEAREST_MM, NEAREST_SHARE = 150.0, 1 / 8  #: of a block to the pane's corner [P]
WEIGHT_SAG_MM = {"ASCE": 3.2, "EN": 3.0}  #: [A], [E]
_TRIES = 5  # places between quarter point and corner
_BY_LITTLE = 1.25  # of the limit
_MPA = 1e-6
_CURE = "Take a rail with a wider seat or a thicker wall, or a wider bead."
_LEG_CURE = "Take a rail with a thicker wall or a lower upright."


@dataclass(frozen=True, slots=True)
class LowRail:
    """The rail at the low edge, and what it carries."""

    rail: Rail
    pane: Pane
    bead: Bead
    side: Side  #: of the pane that lies low
    held_mm: tuple[float, ...]  #: where the rail is held down the slope, from its left end
    blocks: int  #: setting blocks; 0 where the gap has no room for them

    @property
    def edge_mm(self) -> float:
        """The pane's low side. [mm]"""
        return self.pane.long_mm if self.side == "long" else self.pane.short_mm

    @property
    def slope_mm(self) -> float:
        """The pane's side up the slope. [mm]"""
        return self.pane.short_mm if self.side == "long" else self.pane.long_mm

    @property
    def length_mm(self) -> float:
        """Of the rail, outside. [mm]"""
        return outer_mm(self.edge_mm, self.rail, self.bead)

    @property
    def span_mm(self) -> float:
        """The longest way between two holds. [mm]"""
        return max(after - before for before, after in pairwise(self.held_mm))

    @property
    def bead_mm2(self) -> float:
        """Bonded all round. [mm2]"""
        return 2 * (self.pane.long_mm + self.pane.short_mm) * self.bead.bite_mm


@dataclass(frozen=True, slots=True)
class LowProof:
    """Where the blocks stand, and what that does to the low rail."""

    side: Side
    places_mm: tuple[float, ...]  #: middles of the blocks, from the pane's left corner
    checks: tuple[Check, ...]

    @property
    def passed(self) -> bool:
        """Whether all its checks hold."""
        return all(check.passed for check in self.checks)

    @property
    def hopeful(self) -> bool:
        """Whether another sheet and other brackets may mend it: none fails by much."""
        return all(check.utilisation < _BY_LITTLE for check in self.checks)


def corner_holds(rail: Rail, pane: Pane, bead: Bead) -> tuple[float, float]:
    """A short rail is held down the slope at both its ends. [mm]"""
    return 0.0, outer_mm(pane.short_mm, rail, bead)


def block_places(edge_mm: float, count: int, outer_mm: float) -> tuple[float, ...]:
    """Middles of the blocks from the pane's corner: two groups that begin so far from both corners. [mm]

    >>> block_places(1000.0, 4, 150.0)
    (150.0, 300.0, 700.0, 850.0)
    """
    left = tuple(outer_mm + BLOCK_EVERY_MM * number for number in range(count // 2))
    middle = (edge_mm / 2,) if count % 2 else ()
    return (*left, *middle, *(edge_mm - place for place in reversed(left)))


def outer_places_mm(edge_mm: float, count: int) -> tuple[float, ...]:
    """How far from the pane's corners the outer blocks may stand: as usual first, then nearer. [mm]

    >>> outer_places_mm(1000.0, 2)
    (250.0, 225.0, 200.0, 175.0, 150.0)
    """
    every = (
        min(BLOCK_EVERY_MM, edge_mm / 3) if count == 2 else BLOCK_EVERY_MM
    )  # blocks cut short stand closer
    room = edge_mm / 2 - every * max(0.0, (count - 1) / 2)  # so that groups do not meet
    usual = max(block_long_mm(edge_mm) / 2, min(edge_mm / 4, room))
    nearest = min(usual, max(NEAREST_MM, NEAREST_SHARE * edge_mm))
    step = (usual - nearest) / (_TRIES - 1)
    tries = (usual - step * number for number in range(_TRIES if step > 0 else 1))
    return tuple(float(math.ceil(one)) for one in tries)


@lru_cache(maxsize=256)
def judge_low(low: LowRail, loads: Loads, need: Need, per_pa: SideFigures) -> LowProof:
    """The low rail with its blocks where it holds; nearest to the corners where it does not.

    Kept, for panels of a catalogue that differ in their cells alone have it in common.
    """
    if not low.blocks:
        return LowProof(low.side, (), _lip_checks(low, loads))
    tried, anywhere = [], (*_lip_checks(low, loads), *_upright_checks(low, loads))
    for outer in outer_places_mm(low.edge_mm, low.blocks):
        places = block_places(low.edge_mm, low.blocks, outer)
        here = _block_checks(low, places, loads, need, per_pa)
        tried.append(LowProof(low.side, places, (*here, *anywhere)))
        if tried[-1].passed:
            return tried[-1]
    return min(tried, key=_worst_use)


def _worst_use(proof: LowProof) -> float:
    return max(check.utilisation for check in proof.checks)


def _block_checks(
    low: LowRail, places: tuple[float, ...], loads: Loads, need: Need, per_pa: SideFigures
) -> tuple[Check, ...]:
    """What hangs on the places of the blocks."""
    sag = sag_mm_n(low, places)
    return (
        _stress_check(low, places, loads, per_pa),
        _weight_check(low, sag, loads),
        _sag_check(low, sag, loads, need),
        *_bead_checks(low, sag, loads),
    )


def _line(low: LowRail, places: tuple[float, ...]) -> LineLoad:
    """One newton on the blocks, shared evenly; the rail has length 1."""
    length, share = low.length_mm, 1 / len(places)
    inset = (length - low.edge_mm) / 2
    return LineLoad(points=tuple(((inset + at) / length, share) for at in places))


def _holds(low: LowRail) -> tuple[float, ...]:
    length = low.length_mm
    return tuple(place / length for place in low.held_mm)


def sag_mm_n(low: LowRail, places: tuple[float, ...]) -> float:
    """How far the rail bends down the slope for each newton on its blocks. [mm/N]"""
    shape = section(low.rail)
    free = shape.iy_mm4 - shape.ixy_mm4**2 / shape.ix_mm4
    stiff = young_pa("EN") * _MPA * free  # the families' E differ by 0.6 %: no more than a digit
    return peaks(_line(low, places), _holds(low)).wave * low.length_mm**3 / stiff


def stress_mpa_n(low: LowRail, places: tuple[float, ...]) -> tuple[float, float]:
    """Largest stress for each newton on the blocks, and for each that lies evenly on the lip. [MPa/N]"""
    shape = section(low.rail)
    whole = shape.ix_mm4 * shape.iy_mm4 - shape.ixy_mm4**2
    modulus = whole / max(abs(shape.ix_mm4 * x - shape.ixy_mm4 * y) for x, y in shape.corners_mm)
    even = LineLoad(steps=((0.0, 1.0),))
    moments = (peaks(load, _holds(low)).moment for load in (_line(low, places), even))
    blocks, lip = (moment * low.length_mm / modulus for moment in moments)
    return blocks, lip


def _stress_check(low: LowRail, places: tuple[float, ...], loads: Loads, per_pa: SideFigures) -> Check:
    """In every combination: across by its pressure, and down the slope."""
    area, (blocks, lip) = low.pane.long_mm * low.pane.short_mm * MM**2, stress_mpa_n(low, places)
    across = max(bound.stress_mpa for bound in (per_pa.free, per_pa.bead, per_pa.held))
    stress = max(
        abs(case.pressure_pa) * across
        + area * (case.weight_along_pa * blocks + case.snow_along_pa * max(blocks, lip))
        for case in loads.strength_cases
    )
    limit, source = _metal(low, loads.family)
    return Check("low rail stress across and down the slope", stress, limit, "MPa", source, _CURE, "frame")


def weight_sag_limit_mm(low: LowRail, family: Family) -> tuple[float, str]:
    """How far the low rail may sag under the pane's own weight [mm], and by which rule."""
    most = WEIGHT_SAG_MM[family]
    if family == "ASCE":
        return min(most, low.bead.gap_mm / 4), "a quarter of the edge clearance, 1/8 in (recalled)"
    return min(most, low.span_mm / 500), "EN 13830, length/500, 3 mm (recalled)"


def _weight_check(low: LowRail, sag_mm_n: float, loads: Loads) -> Check:
    weight = _on_pane_n(low, loads.weight_along_pa)
    limit, source = weight_sag_limit_mm(low, loads.family)
    sag = weight * sag_mm_n
    return Check("low rail sag under the pane's weight", sag, limit, "mm", source, _CURE, "frame")


def _sag_check(low: LowRail, sag_mm_n: float, loads: Loads, need: Need) -> Check:
    """Weight and snow less what the bead may hold for ever."""
    left = max(0.0, pull_n(low.pane, loads) - low.bead.sealant.dead_load_pa * _MPA * low.bead_mm2)
    limit, source = _sag_limit_mm(low, loads.family, need)
    sag = left * sag_mm_n
    return Check("low rail sag under weight and snow", sag, limit, "mm", source, _CURE, "frame")


def _sag_limit_mm(low: LowRail, family: Family, need: Need) -> tuple[float, str]:
    """The rail's own limit, a gap that does not close, and a bead that slips no more than its class."""
    bead = low.bead
    slips = bead.glue_line_mm * math.sqrt((1 + bead.sealant.movement) ** 2 - 1) - need.movement.slip_mm
    return min(
        edge_limit_mm(low.span_mm, family),
        (max(0.0, bead.gap_mm - need.tolerance_mm), "the gap at the low corners must not close"),
        (max(0.0, slips), "slip of the bead by its movement class, less that of heat and cold"),
    )


def _bead_checks(low: LowRail, sag_mm_n: float, loads: Loads) -> tuple[Check, Check]:
    """The bead's share by stiffness: of all at once, and of the weight for ever."""
    sealant, share = low.bead.sealant, bead_share(low, sag_mm_n) / low.bead_mm2
    at_once = SHEAR_SHARE[loads.family] * sealant.design_pa * _MPA if sealant.structural else 0.0
    for_ever = sealant.dead_load_pa * _MPA
    words = "of the sealant; the bead's share by stiffness"
    pull, weight = pull_n(low.pane, loads), _on_pane_n(low, loads.weight_along_pa)
    return (
        Check(
            "bead shear as weight and snow come on",
            share * pull,
            at_once or None,
            "MPa",
            f"design stress in shear {words}",
            _CURE,
            "seal",
        ),
        Check(
            "bead shear under the pane's weight for ever",
            share * weight,
            for_ever or None,
            "MPa",
            f"dead load {words}",
            _CURE,
            "seal",
        ),
    )


def bead_share(low: LowRail, sag_mm_n: float) -> float:
    """What an elastic bead takes of the pull, beside the rail under its blocks. [-]"""
    bead = bead_spring_mpa(low.bead) * low.bead_mm2 / low.bead.bite_mm
    return bead / (bead + 1 / sag_mm_n)


def _lip_checks(low: LowRail, loads: Loads) -> tuple[Check, ...]:
    """Snow leans on the edge of the upright, where one stands above the pane."""
    proud = low.rail.upright_mm - face_mm(low.rail, low.bead, low.pane)
    if low.rail.profile == "tube" or proud <= 0:
        return ()
    line = max(case.snow_along_pa for case in loads.strength_cases) * low.slope_mm * MM**2
    stress = 6 * line * (low.rail.upright_mm - low.rail.wall_mm) / low.rail.wall_mm**2
    limit, source = _metal(low, loads.family)
    return (Check("lip of the low rail under snow", stress, limit, "MPa", source, _LEG_CURE, "frame"),)


def _upright_checks(low: LowRail, loads: Loads) -> tuple[Check, ...]:
    """A block pushes the upright at the middle of the pane's edge; the push spreads at 45 degrees."""
    if low.rail.profile == "tube":
        return ()
    lever = low.bead.glue_line_mm + low.pane.sheet.nominal_mm / 2
    most = max(case.weight_along_pa + case.snow_along_pa for case in loads.strength_cases)
    line = _on_pane_n(low, most) / low.blocks / (block_long_mm(low.pane.short_mm) + 2 * lever)
    stress = 6 * line * lever / low.rail.wall_mm**2
    limit, source = _metal(low, loads.family)
    return (Check("upright bending at a setting block", stress, limit, "MPa", source, _LEG_CURE, "frame"),)


def _metal(low: LowRail, family: Family) -> tuple[float | None, str]:
    return bending_limit_mpa(low.rail.alloy, family, low.rail.wall_mm), bending_source(family)


def _on_pane_n(low: LowRail, along_pa: float) -> float:
    return along_pa * low.pane.long_mm * low.pane.short_mm * MM**2
