"""A long rail grows and shrinks along its brackets; where its bolts have too little play they get slots.

Each way from the heat of making, to the hottest and to the coldest rail of the heat balance:

    strain  alpha (T - T0), and what the support does against it

Metal and concrete grow with the rail or lie still: nothing of theirs is counted. Timber may dry and shrink
along its grain while the rail grows [T]; so may what others build.

Round holes, bolts in their middle: the rail floats, and each of the outer two takes half of what lies between
them, and the rail's slide as it bends. Slots: one bracket keeps its round hole, the nearest to the rail's
middle, level with that of the other rail; the others move away from it by all that lies between, and by the
slide of both. All slots of a frame are alike, in whole millimetres, a millimetre longer than they need. None
is longer than two and a half diameters [L].

Across a slot the wall bears less [B]. Under a nut pulled through it, its ring is cut by the slot on both
sides (geometry). A slotted bracket holds nothing along the rail: the fixed ones alone bear what goes down the
slope there.

[T] 0.01 % for each percent of moisture along the grain, 5 % between seasons (recalled).
[L] AISC 360 table J3.3, long slots; EN 1090-2 has one and a half diameters more than the hole (recalled).
[B] square to the slot: 1.33 of 2 d t Ftu, Aluminum Design Manual J.3; 0.6, EN 1993-1-8 table 3.4 (both
    recalled; EN 1999-1-1 is taken to say the same).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.check import Check
from panewright.climate.heat import Temperatures
from panewright.climate.site import Family
from panewright.frame.joining.bolt import M6, bearing_limit_n, shear_limit_n
from panewright.frame.metals.aluminium import alloy
from panewright.frame.metals.metal import rupture_mpa
from panewright.frame.rail import Alloy, Rail
from panewright.structure.drilling.mount import NUT_SHARE, Hold, Mount, through_limit_n
from panewright.structure.mounting.wish import On

PLAY_MM = (M6.hole_mm - M6.diameter_mm) / 2  #: of a bolt in the middle of a round hole, each way
LONGEST_MM = 2.5 * M6.diameter_mm  #: slot, end to end [L]
SPARE_MM = 1.0  #: of a slot, for marking and filing; common practice
SLOT_SHARE: dict[Family, float] = {"ASCE": 1.33 / 2, "EN": 0.6}  #: of the bearing of a round hole [B]
_TIMBER = 5e-4  # [T]
_AGAINST: dict[On, float] = {"timber": _TIMBER, "by others": _TIMBER}
_CURE = "Use more brackets, two bolts to a bracket, or a thicker rail."


@dataclass(frozen=True, slots=True)
class Growth:
    """What a long rail does along its brackets."""

    strain: float  #: the larger of both ways, against the support [-]
    slide_mm: float = 0.0  #: along a bolt as the rail bends

    def __post_init__(self) -> None:
        if self.strain < 0 or self.slide_mm < 0:
            raise ValueError(f"growth is given by its size, got {self}")


@dataclass(frozen=True, slots=True)
class Slots:
    """The holes of a long rail's brackets, in their order from the datum."""

    travel_mm: float  #: the most a bolt moves in its hole, each way
    long_mm: tuple[float, ...]  #: middle to middle of each slot's ends; 0 is a round hole

    @property
    def slotted(self) -> bool:
        """Whether any hole is a slot."""
        return any(self.long_mm)

    @property
    def room_mm(self) -> float:
        """What a bolt in the middle may move, each way. [mm]"""
        return PLAY_MM + (max(self.long_mm) - SPARE_MM) / 2 if self.slotted else PLAY_MM


def strain_of(name: Alloy, heat: Temperatures, on: On) -> float:
    """Growth of a rail against what carries it, the larger of both ways. [-]"""
    hotter, colder = heat.hot_frame_c - heat.build_c, heat.build_c - heat.cold_frame_c
    return alloy(name).expansion_per_k * max(0.0, hotter, colder) + _AGAINST.get(on, 0.0)


def slots_for(places_mm: tuple[float, ...], fixed_mm: float, growth: Growth) -> Slots:
    """Round holes where their play does; else slots in all but the bracket nearest to `fixed_mm`.

    >>> slots_for((200.0, 1000.0), 600.0, Growth(0.0005)).long_mm
    (0.0, 0.0)
    >>> slots_for((200.0, 1400.0), 200.0, Growth(0.0015)).long_mm
    (0.0, 4.0)
    """
    afloat = growth.strain * (places_mm[-1] - places_mm[0]) / 2 + growth.slide_mm
    if afloat <= PLAY_MM:
        return Slots(afloat, (0.0,) * len(places_mm))
    fixed = min(range(len(places_mm)), key=lambda each: abs(places_mm[each] - fixed_mm))
    farthest = max(abs(place - places_mm[fixed]) for place in places_mm)
    travel = growth.strain * farthest + 2 * growth.slide_mm
    needed = math.ceil(2 * (travel - PLAY_MM) + SPARE_MM)
    long_mm = float(min(needed, math.floor(LONGEST_MM - M6.hole_mm)))
    return Slots(travel, tuple(0.0 if each == fixed else long_mm for each in range(len(places_mm))))


def fixed_place_mm(places_mm: tuple[float, ...], length_mm: float) -> float:
    """Of the bracket nearest to the rail's middle; of two alike the one nearer to the datum. [mm]"""
    return min(places_mm, key=lambda place: (round(abs(place - length_mm / 2)), place))


def judge_slots(
    rail: Rail, place: Mount | None, hold: Hold, slots: Slots, family: Family
) -> tuple[Check, ...]:
    """Room for growth in every hole, and what a slot takes from the wall round its bolt."""
    moves = Check(
        "rail's growth along a bracket's bolt",
        slots.travel_mm,
        slots.room_mm,
        "mm",
        "coldest to hottest rail from the heat of making, and its slide as it bends; derived",
        "Put a bracket in the middle of the rail, from which it then grows, or take a shorter rail.",
        "frame",
    )
    if not slots.slotted or place is None:
        return (moves,)
    upright = place.leg == "upright"
    pull, push = (hold.sideways_n, hold.across_n) if upright else (hold.across_n, hold.sideways_n)
    return moves, _pushed(rail, place, push, family), _pulled(rail, pull, family)


def _pushed(rail: Rail, place: Mount, push_n: float, family: Family) -> Check:
    wall = bearing_limit_n(rail, M6, place.edge_mm, family)
    limit = None if wall is None else min(SLOT_SHARE[family] * wall, shear_limit_n(M6, family))
    source = (
        "Aluminum Design Manual J.3, 1.33 d t Ftu/1.95" if family == "ASCE" else "EN 1993-1-8 table 3.4, 0.6"
    )
    return Check("bracket bolt pushed across its slot", push_n, limit, "N", source, _CURE, "frame")


def _pulled(rail: Rail, pull_n: float, family: Family) -> Check:
    cut = 2 * math.asin(M6.hole_mm / (NUT_SHARE * M6.diameter_mm)) / math.pi  # both arcs over the slot
    whole = through_limit_n(M6, rail.wall_mm, rupture_mpa(rail.alloy, family, rail.wall_mm), family)
    limit = None if whole is None else whole * (1 - cut)
    source = "0.6 Ftu/1.95" if family == "ASCE" else "EN 1999-1-1 table 8.5, Bp"
    return Check(
        "bracket bolt through its slotted wall",
        pull_n,
        limit,
        "N",
        f"{source}; the nut's ring less the slot",
        _CURE,
        "frame",
    )
