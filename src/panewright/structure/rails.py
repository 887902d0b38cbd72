"""A rail between its brackets under the pane's edge: sag, stress, and what each bracket carries.

The pane gives each rail the load of its own side, split at 45 degrees from the corners: a trapezium on the
long rails, a triangle on the short ones. Brackets sit on the long rails; the short rails hang in the corners
and put q b^2 / 8 on each end of the long ones. All of q a b arrives at the brackets.

An angle pushed across the pane also moves sideways. Two bounds are shown: held sideways (the pane's own
stiffness in its plane, through the bead) and free. The bead holds the rail only partly; so the free bound is
checked, unless the bead is structural silicone. Stress is always the worse of both.

Not covered: twisting of the open section (the bead and the pane's edge hold it), buckling of thin legs,
the joint in the corners.

[E] ASTM E1300 6.2.4 (read): an edge held counts as held while it sags no more than its length / 175.
[C] EN 13830 (read): length / 200 up to 3 m, 5 mm + length / 300 beyond.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from panewright.check import Check
from panewright.climate.site import Family
from panewright.frame.aluminium import bending_limit_mpa, bending_source, young_pa
from panewright.frame.rail import Rail
from panewright.frame.section import section
from panewright.glass import e1300
from panewright.glass.pane import Pane
from panewright.seal.sealant import Bead
from panewright.structure.beam import LineLoad, least_sag_from_end, peaks
from panewright.structure.loads import Loads
from panewright.structure.mount import face_mm, judge_mount, mount_place

Side = Literal["long", "short"]
LEAST_FROM_END_MM = 60.0  #: a bracket nearer to the corner meets the corner's own fixing; common practice
BRACKET_MM = 40.0  #: length of a bracket along the rail; common practice, as on the shelf
BRACKETS_APART_MM = 20.0  #: from one bracket to the next, room for a spanner; common practice
_MPA = 1e-6  # megapascal in a pascal, and N/mm2 in N/m2


@dataclass(frozen=True, slots=True)
class Brackets:
    """Where a long rail is held: the outer two this far from the rail's ends, the rest evenly between."""

    count: int  #: on each long rail
    from_end_mm: float

    def __post_init__(self) -> None:
        if self.count < 2 or self.from_end_mm < 0:
            raise ValueError(f"a rail has two brackets or more, not past its ends, got {self}")

    def places_mm(self, length_mm: float) -> tuple[float, ...]:
        """From the rail's left end. [mm]"""
        between = (length_mm - 2 * self.from_end_mm) / (self.count - 1)
        return tuple(self.from_end_mm + between * number for number in range(self.count))


@dataclass(frozen=True, slots=True)
class RailProof:
    """One rail held against its rules, with the figures of both bounds."""

    side: Side
    length_mm: float
    checks: tuple[Check, ...]
    deflection_held_mm: float  #: sideways held by the pane
    deflection_free_mm: float  #: free to move sideways
    stress_held_mpa: float
    stress_free_mpa: float
    reaction_n: float  #: largest at one bracket (long) or corner (short), at the level of strength

    @property
    def passed(self) -> bool:
        """Whether all its checks hold."""
        return all(check.passed for check in self.checks)


def outer_mm(side_mm: float, rail: Rail, bead: Bead) -> float:
    """Outer size of the frame along a side of the pane. [mm]"""
    return side_mm + 2 * (bead.gap_mm + rail.wall_mm)


def best_brackets(rail: Rail, pane: Pane, bead: Bead, count: int) -> Brackets:
    """The place of `count` brackets on each long rail at which it sags least, to a whole millimetre."""
    length = outer_mm(pane.long_mm, rail, bead)
    load = _long_load(pane.long_mm, pane.short_mm, length)
    place = least_sag_from_end(load, count, LEAST_FROM_END_MM / length) * length
    near = {max(LEAST_FROM_END_MM, float(whole)) for whole in (math.floor(place), math.ceil(place))}
    return min((Brackets(count, each) for each in sorted(near)), key=lambda each: _wave(load, each, length))


def _wave(load: LineLoad, brackets: Brackets, length_mm: float) -> float:
    """How far the rail is from straight on these brackets, in units of its own. [-]"""
    return peaks(load, tuple(place / length_mm for place in brackets.places_mm(length_mm))).wave


def judge_rail(rail: Rail, pane: Pane, bead: Bead, loads: Loads, brackets: Brackets) -> RailProof:
    """The long rail on its brackets."""
    length = outer_mm(pane.long_mm, rail, bead)
    if 2 * brackets.from_end_mm >= length:
        raise ValueError(f"brackets {brackets.from_end_mm} mm from both ends of a rail {length} mm long")
    load = _long_load(pane.long_mm, pane.short_mm, length)
    places = tuple(place / length for place in brackets.places_mm(length))
    proof = _proof("long", rail, pane, bead, loads, load, places)
    held = judge_mount(rail, mount_place(rail, bead, pane), proof.reaction_n, loads.family)
    return _with_checks(proof, (*held, *bracket_checks(brackets, length)))


def bracket_checks(brackets: Brackets, length_mm: float) -> tuple[Check, Check]:
    """Brackets lie side by side, and within the rail."""
    places = brackets.places_mm(length_mm)
    apart = Check(
        "brackets side by side",
        BRACKET_MM + BRACKETS_APART_MM,
        places[1] - places[0],
        "mm",
        "geometry: brackets of 40 mm, 20 mm between them; common practice",
        "Take fewer brackets, or put the outer ones nearer to the ends.",
        "frame",
    )
    within = Check(
        "outer brackets within the rail",
        BRACKET_MM / 2,
        brackets.from_end_mm,
        "mm",
        "geometry: half a bracket of 40 mm; common practice",
        "Put the outer brackets farther from the rail's ends.",
        "frame",
    )
    return apart, within


def judge_short_rail(rail: Rail, pane: Pane, bead: Bead, loads: Loads) -> RailProof:
    """The short rail between the corners."""
    length = outer_mm(pane.short_mm, rail, bead)
    load = _short_load(pane.short_mm, length)
    proof = _proof("short", rail, pane, bead, loads, load, (0.0, 1.0))
    return _with_checks(proof, _seat_checks(rail, pane, bead, loads))


def edge_limit_mm(edge_mm: float, family: Family) -> tuple[float, str]:
    """How far a rail may sag along a pane's edge [mm], and by which rule."""
    if family == "ASCE":
        return e1300.edge_limit_mm(edge_mm), "ASTM E1300 6.2.4, length/175"
    if edge_mm <= 3000:
        return edge_mm / 200, "EN 13830, length/200"
    return 5 + edge_mm / 300, "EN 13830, 5 mm + length/300"


def _long_load(long: float, short: float, length: float) -> LineLoad:
    """Load on a long rail for unit pressure, its length taken as 1: trapezium and the short rails' ends."""
    a, b = long / length, short / length
    start = (1 - a) / 2
    ramps = ((start, 1.0), (start + b / 2, -1.0), (start + a - b / 2, -1.0), (start + a, 1.0))
    return LineLoad(ramps=ramps, points=((0.0, b**2 / 8), (1.0, b**2 / 8)))


def _short_load(short: float, length: float) -> LineLoad:
    """Load on a short rail for unit pressure, its length taken as 1: a triangle."""
    b = short / length
    start = (1 - b) / 2
    return LineLoad(ramps=((start, 1.0), (start + b / 2, -2.0), (start + b, 1.0)))


def _proof(
    side: Side,
    rail: Rail,
    pane: Pane,
    bead: Bead,
    loads: Loads,
    load: LineLoad,
    places: tuple[float, ...],
) -> RailProof:
    edge = pane.long_mm if side == "long" else pane.short_mm
    length = outer_mm(edge, rail, bead)
    shape, metal = peaks(load, places), section(rail)
    service = max(loads.down_pa, loads.up_pa) * _MPA  # N/mm2
    design = max(loads.design_down_pa, loads.design_up_pa) * _MPA
    sag = service * length**5 * shape.wave / (young_pa(loads.family) * _MPA)
    moment = design * length**3 * shape.moment
    held, free = sag / metal.ix_mm4, sag / metal.free_ix_mm4
    stress_held, stress_free = moment / metal.sx_mm3, moment / metal.free_sx_mm3
    checks = (
        _sag_check(side, edge, held if bead.sealant.structural else free, loads.family),
        _stress_check(side, rail, max(stress_held, stress_free), loads.family),
    )
    reaction = design * length**2 * shape.reaction
    return RailProof(side, length, checks, held, free, stress_held, stress_free, reaction)


def _with_checks(proof: RailProof, more: tuple[Check, ...]) -> RailProof:
    return RailProof(
        proof.side,
        proof.length_mm,
        proof.checks + more,
        proof.deflection_held_mm,
        proof.deflection_free_mm,
        proof.stress_held_mpa,
        proof.stress_free_mpa,
        proof.reaction_n,
    )


def _sag_check(side: Side, edge_mm: float, sag_mm: float, family: Family) -> Check:
    limit, source = edge_limit_mm(edge_mm, family)
    cure = "Take a deeper rail, or more brackets." if side == "long" else "Take a deeper rail."
    return Check(f"{side} rail sag along the pane", sag_mm, limit, "mm", source, cure, "frame")


def _stress_check(side: Side, rail: Rail, stress_mpa: float, family: Family) -> Check:
    limit = bending_limit_mpa(rail.alloy, family, rail.wall_mm)
    cure = "Take a deeper or stronger rail." if limit else f"Take an alloy that the {family} rules list."
    return Check(f"{side} rail stress", stress_mpa, limit, "MPa", bending_source(family), cure, "frame")


def _seat_checks(rail: Rail, pane: Pane, bead: Bead, loads: Loads) -> tuple[Check, ...]:
    """The seat is wide enough for the bead, and bears it as a cantilever."""
    room = rail.seat_mm - max(rail.wall_mm, rail.pocket.flat_from_mm - bead.gap_mm)  # bite on flat metal
    wide = Check(
        "seat wide enough for the bead",
        bead.bite_mm + bead.gap_mm,
        room,
        "mm",
        "geometry: bite and gap lie on the seat beside the upright",
        "Take a rail with a wider seat.",
        "frame",
    )
    if rail.profile == "tube":
        return (wide,)
    deep = Check(
        "pane's face below the edge of the rail",
        face_mm(rail, bead, pane),
        rail.pocket.top_mm,
        "mm",
        "geometry: the upright guards the pane's edge; under a channel's flange or a lip the pane has to fit",
        "Take a rail with a deeper upright.",
        "frame",
    )
    line = max(loads.design_down_pa, loads.design_up_pa) * _MPA * pane.short_mm / 2  # N/mm at mid side
    stress = 6 * line * (bead.gap_mm + bead.bite_mm / 2) / rail.wall_mm**2
    limit = bending_limit_mpa(rail.alloy, loads.family, rail.wall_mm)
    leg = Check(
        "seat bending under the bead",
        stress,
        limit,
        "MPa",
        bending_source(loads.family),
        "Take a rail with a thicker wall.",
        "frame",
    )
    return wide, deep, leg
