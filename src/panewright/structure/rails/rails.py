"""The rails of a frame on their brackets under the pane's edge: sag, twist, stress, force at each bracket.

All four are one frame in space (space_frame.py): an angle loaded on one leg bends across the pane, moves
sideways and twists. All of q a b arrives at the brackets; short rails hang in the corners.

The pane holds the rails sideways through the bead. Shown are the bounds, free and held, and the figure of the
bead as an elastic spring. Sag and twist are judged on the elastic figure where the bead is structural
silicone, free otherwise; never as if it were rigid, which it is not by far. Stress is always the worst.

The bead opens where the seat turns under the pane. So a turn is limited by the bead's movement class over
half its bite; and by 5 degrees, where turns are no longer small and the reckoning no longer true.

Silicone gives way under a load that stays: see lasting.py. What the metal bears: rail_strength.py.

[E] ASTM E1300 6.2.4 (read): an edge held counts as held while it sags no more than its length / 175.
[C] EN 13830 (read): length / 200 up to 3 m, 5 mm + length / 300 beyond.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache, partial
from itertools import pairwise

from panewright.check import Check
from panewright.climate.site import Family
from panewright.frame.metals.aluminium import bending_limit_mpa, bending_source
from panewright.frame.rail import Rail
from panewright.glass.pane import Pane
from panewright.glass.strength import e1300
from panewright.seal.sealant import Bead
from panewright.structure.bead.peel import peel_checks
from panewright.structure.drilling.mount import Hold, face_mm, judge_mount, mount_place
from panewright.structure.loads import Loads
from panewright.structure.rails.bracket_places import (
    LEAST_APART_MM,
    Question,
    best_places,
    near_places,
    usual_places,
)
from panewright.structure.rails.edge_load import Edges, edge_peak_n_mm, split_at_45
from panewright.structure.rails.lasting import most_moved
from panewright.structure.rails.strength import strength_checks, tipping_check
from panewright.structure.space.bounds import SideFigures, SpaceFrame
from panewright.structure.space.conditions import Joint
from panewright.structure.space.space_frame import Side, outer_mm, shape_of, stand

BRACKET_MM = 40.0  #: length of a bracket along the rail; common practice, as on the shelf
SMALL_TURN_DEG = 5.0  #: its cosine is one to 0.4 %; derived


@dataclass(frozen=True, slots=True)
class Brackets:
    """Where a long rail is held: the outer two this far from the rail's ends, the rest evenly between.

    Or all between at places of their own, from the rail's left end; or all of them, as an order has them.
    """

    count: int  #: on each long rail
    from_end_mm: float
    inner_mm: tuple[float, ...] | None = None
    all_mm: tuple[float, ...] | None = None  #: from the left end; `from_end_mm` is then the nearer end's

    def __post_init__(self) -> None:
        if self.count < 2 or self.from_end_mm < 0:
            raise ValueError(f"a rail has two brackets or more, not past its ends, got {self}")
        if self.inner_mm is not None and len(self.inner_mm) != self.count - 2:
            raise ValueError(f"of {self.count} brackets all but two lie between, got {self.inner_mm}")
        if self.all_mm is not None and len(self.all_mm) != self.count:
            raise ValueError(f"{self.count} brackets have as many places, got {self.all_mm}")

    def places_mm(self, length_mm: float) -> tuple[float, ...]:
        """From the rail's left end. [mm]"""
        if self.all_mm is not None:
            return self.all_mm
        if self.inner_mm is not None:
            return (self.from_end_mm, *self.inner_mm, length_mm - self.from_end_mm)
        between = (length_mm - 2 * self.from_end_mm) / (self.count - 1)
        return tuple(self.from_end_mm + between * number for number in range(self.count))


@dataclass(frozen=True, slots=True)
class RailProof:
    """One rail held against its rules, with all its figures."""

    side: Side
    length_mm: float
    checks: tuple[Check, ...]
    per_pa: SideFigures  #: under 1 Pa, down or up
    loads: Loads

    @property
    def passed(self) -> bool:
        """Whether all its checks hold."""
        return all(check.passed for check in self.checks)

    @property
    def service(self) -> SideFigures:
        """Under the larger of both ways, at the level of movement."""
        return self.per_pa.times(max(self.loads.down_pa, self.loads.up_pa))

    @property
    def design(self) -> SideFigures:
        """Under the larger of both ways, at the level of strength."""
        return self.per_pa.times(max(self.loads.design_down_pa, self.loads.design_up_pa))

    @property
    def deflection_held_mm(self) -> float:
        """Sag of the pane's edge, sideways held by the pane. [mm]"""
        return self.service.held.sag_mm

    @property
    def deflection_free_mm(self) -> float:
        """Sag, free to move sideways. [mm]"""
        return self.service.free.sag_mm

    @property
    def stress_held_mpa(self) -> float:
        """Along the rail, sideways held. [MPa]"""
        return self.design.held.stress_mpa

    @property
    def stress_free_mpa(self) -> float:
        """Along the rail, free. [MPa]"""
        return self.design.free.stress_mpa

    @property
    def reaction_n(self) -> float:
        """Largest across the pane at one bracket (long) or corner (short), at the level of strength. [N]"""
        design = self.design
        return design.bracket.across_n if self.side == "long" else design.corner.force.across_n


def brackets_at(places_mm: tuple[float, ...], length_mm: float) -> Brackets:
    """Brackets at these places of a long rail, from its left end and in order.

    >>> brackets_at((150.0, 800.0, 1500.0), 1600.0).from_end_mm
    100.0
    """
    nearer = min(places_mm[0], length_mm - places_mm[-1])
    return Brackets(len(places_mm), nearer, all_mm=places_mm)


def best_brackets(
    rail: Rail, pane: Pane, bead: Bead, count: int, joint: Joint = "mitred", edges: Edges = ()
) -> Brackets:
    """The places of so many brackets on each long rail where the pane's edge sags least, to a millimetre."""
    places, _ = best_places(Question(rail, pane, bead, joint, edges), count)
    return Brackets(count, places[0], places[1:-1])


def near_brackets(
    rail: Rail, pane: Pane, bead: Bead, count: int, joint: Joint = "mitred", edges: Edges = ()
) -> Brackets:
    """As the best, looked for about the usual places only: much quicker, and mostly the same."""
    places = near_places(Question(shape_of(rail), pane, bead, joint, edges), count)
    return Brackets(count, places[0], places[1:-1])


def usual_brackets(rail: Rail, pane: Pane, bead: Bead, count: int, joint: Joint = "mitred") -> Brackets:
    """Where a middling angle's brackets are best: good enough to weigh many rails."""
    places = usual_places(Question(rail, pane, bead, joint), count)
    return Brackets(count, places[0], places[1:-1])


def judge_rail(
    rail: Rail, pane: Pane, bead: Bead, loads: Loads, brackets: Brackets, *, joint: Joint = "mitred"
) -> RailProof:
    """The long rail on its brackets."""
    frame = _stood(rail, pane, bead, loads.family, brackets, joint)
    return judge_sides(rail, pane, bead, loads, brackets=brackets, frame=frame)[0]


def judge_short_rail(
    rail: Rail, pane: Pane, bead: Bead, loads: Loads, brackets: Brackets, *, joint: Joint = "mitred"
) -> RailProof:
    """The short rail between the corners."""
    frame = _stood(rail, pane, bead, loads.family, brackets, joint)
    return judge_sides(rail, pane, bead, loads, brackets=brackets, frame=frame)[1]


def judge_sides(
    rail: Rail,
    pane: Pane,
    bead: Bead,
    loads: Loads,
    *,
    brackets: Brackets,
    frame: SpaceFrame,
    edges: Edges = (),
) -> tuple[RailProof, RailProof]:
    """Both rails of a frame that stands on its brackets under 1 Pa, loaded by the worst of these edges."""
    length = outer_mm(pane.long_mm, rail, bead)
    judged = partial(_proof, rail, pane, bead, loads)
    (long, long_design), (short, short_design) = (
        judged(side="long", figures=frame.long),
        judged(side="short", figures=frame.short),
    )
    mounted = judge_mount(rail, mount_place(rail, bead, pane), hold_of(long_design), loads.family)
    apart = max(after - before for before, after in pairwise((0.0, *brackets.places_mm(length), length)))
    tips = partial(tipping_check, rail=rail, family=loads.family)
    line = edge_peak_n_mm(edges or (split_at_45(pane, 1.0),)) * max(loads.design_down_pa, loads.design_up_pa)
    return (
        _with_checks(long, (tips("long", long_design, apart), *mounted, *bracket_checks(brackets, length))),
        _with_checks(
            short,
            (tips("short", short_design, short.length_mm), *_seat_checks(rail, pane, bead, loads, line)),
        ),
    )


def short_fails(rail: Rail, pane: Pane, bead: Bead, loads: Loads, frame: SpaceFrame) -> bool:
    """Whether the short rail fails by its own sag, stress, twist or peel, whatever else is asked of it."""
    return not _proof(rail, pane, bead, loads, side="short", figures=frame.short)[0].passed


def hold_of(figures: SideFigures) -> Hold:
    """What a bracket's bolt holds of the long rail."""
    return Hold(figures.bracket.across_n, figures.handed.sideways_n)


def _stood(
    rail: Rail, pane: Pane, bead: Bead, family: Family, brackets: Brackets, joint: Joint
) -> SpaceFrame:
    length = outer_mm(pane.long_mm, rail, bead)
    if 2 * brackets.from_end_mm >= length:
        raise ValueError(f"brackets {brackets.from_end_mm} mm from both ends of a rail {length} mm long")
    return stand(rail, pane, bead, brackets.places_mm(length), family=family, joint=joint)


def bracket_checks(brackets: Brackets, length_mm: float) -> tuple[Check, Check]:
    """Brackets lie side by side, and within the rail."""
    places = brackets.places_mm(length_mm)
    apart = Check(
        "brackets side by side",
        LEAST_APART_MM,
        min(after - before for before, after in pairwise(places)),
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


def edge_limit_mm(edge_mm: float, family: Family) -> tuple[float, str]:
    """How far a rail may sag along a pane's edge [mm], and by which rule."""
    if family == "ASCE":
        return e1300.edge_limit_mm(edge_mm), "ASTM E1300 6.2.4, length/175"
    if edge_mm <= 3000:
        return edge_mm / 200, "EN 13830, length/200"
    return 5 + edge_mm / 300, "EN 13830, 5 mm + length/300"


@lru_cache(maxsize=2048)
def _proof(
    rail: Rail, pane: Pane, bead: Bead, loads: Loads, *, side: Side, figures: SideFigures
) -> tuple[RailProof, SideFigures]:
    """The rail's own checks, and its figures at the level of strength; kept for who asked one side first."""
    edge = pane.long_mm if side == "long" else pane.short_mm
    plain = RailProof(side, outer_mm(edge, rail, bead), (), figures, loads)
    moved, design = most_moved(figures, loads, bead), plain.design
    checks = (
        _sag_check(side, edge, moved.sag_mm, loads.family),
        *strength_checks(side, rail, design, loads.family),
        _twist_check(side, bead, moved.twist_deg),
        *peel_checks(side, pane, bead, loads, figures),
    )
    return _with_checks(plain, checks), design


def _with_checks(proof: RailProof, more: tuple[Check, ...]) -> RailProof:
    return RailProof(proof.side, proof.length_mm, proof.checks + more, proof.per_pa, proof.loads)


def _sag_check(side: Side, edge_mm: float, sag_mm: float, family: Family) -> Check:
    limit, source = edge_limit_mm(edge_mm, family)
    cure = "Take a deeper rail, or more brackets." if side == "long" else "Take a deeper rail."
    return Check(f"{side} rail sag along the pane", sag_mm, limit, "mm", source, cure, "frame")


def _twist_check(side: Side, bead: Bead, twist_deg: float) -> Check:
    limit = min(SMALL_TURN_DEG, bead_turn_deg(bead))
    source = "derived: movement class of the bead over half its bite; turns stay small up to 5°"
    cure = "Take a rail with a thicker wall, or a closed one; a narrower gap or bite twists less."
    return Check(f"{side} rail twist", twist_deg, limit, "deg", source, cure, "frame")


def bead_turn_deg(bead: Bead) -> float:
    """Turn of the seat that opens the bead's edge by its movement class. [deg]

    >>> from panewright.seal.sealant import Sealant
    >>> round(bead_turn_deg(Bead(Sealant("silicone", 138e3, 7e3, 0.25, 300, True), 8, 6, 5)), 1)
    20.6
    """
    return math.degrees(math.atan(2 * bead.sealant.movement * bead.glue_line_mm / bead.bite_mm))


def wider_seat(bead: Bead) -> str:
    """The cure of a seat too narrow; where most of it is gap, a wider rail is not what helps most."""
    cure = "Take a rail with a wider seat."
    if bead.gap_mm <= bead.bite_mm:
        return cure
    return f"{cure} Most of it is gap: a front that moves less, such as glass, or shorter panels take less."


def _seat_checks(rail: Rail, pane: Pane, bead: Bead, loads: Loads, line_n_mm: float) -> tuple[Check, ...]:
    """The seat is wide enough for the bead, and bears its largest load on a millimetre as a cantilever."""
    room = rail.seat_mm - max(rail.wall_mm, rail.pocket.flat_from_mm - bead.gap_mm)  # bite on flat metal
    wide = Check(
        "seat wide enough for the bead",
        bead.bite_mm + bead.gap_mm,
        room,
        "mm",
        "geometry: bite and gap lie on the seat beside the upright",
        wider_seat(bead),
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
    stress = 6 * line_n_mm * (bead.gap_mm + bead.bite_mm / 2) / rail.wall_mm**2
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
