"""The frame as four rails in space: what the pane's edges do to it, with every bound of what is not known.

The pane presses on the seat under the middle of the bead's bite and hangs on it there in suction; that line
lies inward of the shear centre, so each rail bends, moves sideways and twists. Down and up are one
reckoning: all is small and straight, so figures grow with the pressure and only their signs turn.

Rails are joined where the lines of their shear centres cross. Three ways of the pane's hold, with the corner
and the brackets' pull along the rail at their worse bound: see space/conditions.py.

Not covered: buckling of thin legs, bending of the legs across (seat and upright keep their right angle; less
than 3 % beside shells, see tests/oracle), warping of channels held at corners.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import numpy as np

from panewright.climate.site import Family
from panewright.frame.aluminium import young_pa
from panewright.frame.rail import Rail
from panewright.frame.shear_centre import shear_centre_mm
from panewright.glass.pane import Pane
from panewright.seal.sealant import Bead
from panewright.structure.edge_load import EdgeLoad, Table, split_at_45
from panewright.structure.mount import Leg, mount_place
from panewright.structure.space.conditions import Condition, Joint, Sideways, conditions
from panewright.structure.space.figures import Figures, bracket_forces_n, corner_forces, figures
from panewright.structure.space.legs import Legs, bolt_mm_n
from panewright.structure.space.member import Array, Point, member
from panewright.structure.space.ring import Build, Stood, stand_quarters, stand_ring
from panewright.structure.space.run import Run

Side = Literal["long", "short"]
_MPA = 1e-6  # megapascal in a pascal
_CORNER_MM = 1.0  # a bracket is no nearer to the corner's own node
_EVEN_MM = 1e-6  # places alike from both ends


@dataclass(frozen=True, slots=True)
class Bound:
    """The worst of one side under one way of the pane's hold."""

    sag_mm: float  #: of the pane's edge at the bead's line, from straight
    sideways_mm: float
    twist_deg: float
    stress_mpa: float  #: along the rail, at any fibre
    torsion_mpa: float  #: shear of twisting


@dataclass(frozen=True, slots=True)
class Force:
    """On a rail, in its own axes; sizes of the largest of each, not all at once."""

    along_n: float
    sideways_n: float
    across_n: float


@dataclass(frozen=True, slots=True)
class CornerForce:
    """Of the corner on one rail: three forces, and moments about the rail's own axes, sizes as above."""

    force: Force
    twist_nmm: float  #: about the rail itself
    tilt_nmm: float  #: about the line inward: bends the rail across the pane
    turn_nmm: float  #: about the upright line: bends it sideways


@dataclass(frozen=True, slots=True)
class SideFigures:
    """One side of the frame under a pressure of 1 Pa, worst of corners and brackets as they may be."""

    free: Bound  #: the pane only loads the rail
    bead: Bound  #: the bead is an elastic spring to a pane that does not move in its plane
    held: Bound  #: the bead's line does not move sideways
    bracket: Force  #: at the bracket worst off
    corner: CornerForce


@dataclass(frozen=True, slots=True)
class SpaceFrame:
    """Both sides."""

    long: SideFigures
    short: SideFigures


@lru_cache(maxsize=1024)
def stand(
    rail: Rail,
    pane: Pane,
    bead: Bead,
    brackets_mm: tuple[float, ...],
    *,
    family: Family = "ASCE",
    joint: Joint = "mitred",
    short_mm: tuple[float, ...] = (),
    load: EdgeLoad | None = None,
) -> SpaceFrame:
    """A frame on brackets at these places of each long rail, and of each short one if asked.

    Places from each rail's left end, seen from outside. `load` is for 1 Pa; where none is given the pane's is
    split at 45 degrees.
    """
    build = frame_build(rail, pane, bead, family, joint)
    runs = frame_runs(rail, pane, bead, (brackets_mm, short_mm), load or split_at_45(pane, 1.0))
    ways = conditions(joint, bead)
    if _even(runs[0]) and _even(runs[1]):
        halves = runs[0].half(), runs[1].half()
        return _read(build, stand_quarters(build, (halves,), ways), halves, ways, whole=False)
    four = runs[0], runs[1], runs[0], runs[1]
    return _read(build, stand_ring(build, four, ways), four, ways, whole=True)


def frame_build(rail: Rail, pane: Pane, bead: Bead, family: Family, joint: Joint) -> Build:
    """The rail as a member, with the lines of bead and bolts from its shear centre."""
    x, y = shear_centre_mm(rail)
    seat_y = rail.upright_mm - rail.wall_mm / 2 if rail.profile == "tube" else rail.wall_mm / 2
    bead_x = rail.wall_mm + bead.gap_mm + bead.bite_mm / 2
    leg, across = _bolt(rail, pane, bead)
    bolt = (rail.wall_mm / 2 - x, across - y) if leg == "upright" else (across - x, rail.wall_mm / 2 - y)
    young = young_pa(family) * _MPA
    return Build(
        member(rail, young),
        bead_mm=(bead_x - x, seat_y - y),
        bolt_mm=bolt,
        bolt_mm_n=_gives(rail, leg, across, young),
        stiff_mm=(rail.seat_mm - rail.wall_mm / 2) / 2 if joint == "welded" else 0.0,
    )


def _bolt(rail: Rail, pane: Pane, bead: Bead) -> tuple[Leg, float]:
    """The leg brackets are bolted to, and how far across it; where there is no room, half way up."""
    place = mount_place(rail, bead, pane)
    return ("upright", rail.upright_mm / 2) if place is None else (place.leg, place.across_mm)


def _gives(rail: Rail, leg: Leg, across_mm: float, young_mpa: float) -> Point:
    """How the legs about a bolt bend, sideways and across; for angles, whose legs are two plain plates."""
    if rail.profile != "angle":
        return 0.0, 0.0
    half = rail.wall_mm / 2
    seat, upright = rail.seat_mm - half, rail.upright_mm - half
    if leg == "upright":
        return bolt_mm_n(Legs(upright, seat, rail.wall_mm, young_mpa), across_mm - half), 0.0
    return 0.0, bolt_mm_n(Legs(seat, upright, rail.wall_mm, young_mpa), across_mm - half)


def frame_runs(
    rail: Rail,
    pane: Pane,
    bead: Bead,
    brackets_mm: tuple[tuple[float, ...], tuple[float, ...]],
    load: EdgeLoad,
) -> tuple[Run, Run]:
    """The long and the short rail between corners, with what acts on them."""
    inset = shear_centre_mm(rail)[0]
    start, corner = bead.gap_mm + rail.wall_mm - inset, load.corner_n / 2
    long, short = ([place - inset for place in held] for held in brackets_mm)
    return (
        _run(pane.long_mm + 2 * start, start, load.long, corner, long),
        _run(pane.short_mm + 2 * start, start, load.short, corner, short),
    )


def _run(length: float, start: float, table: Table, corner_n: float, held: Iterable[float]) -> Run:
    """One side; the force of a pane's corner is shared by its two rails."""
    inside = tuple(min(max(place, _CORNER_MM), length - _CORNER_MM) for place in held)
    load, beyond = _within(tuple((start + at, line) for at, line in table), length)
    corners = beyond + corner_n
    ends = load[0][0], load[-1][0]
    return Run(length, load, inside, tuple((end, corners) for end in ends) if corners else ())


def _within(load: Table, length: float) -> tuple[Table, float]:
    """The load between the corners' lines, and what lies beyond each of them [N], as under a wide tube."""
    if load[0][0] >= 0:
        return load, 0.0
    place, line = np.transpose(load)
    between = place[(place > 0) & (place < length)]
    inside = np.concatenate([[0.0], between, [length]])
    kept = np.interp(inside, place, line)
    beyond = (np.trapezoid(line, place) - np.trapezoid(kept, inside)) / 2
    return tuple(zip(inside.tolist(), kept.tolist(), strict=True)), float(beyond)


def _even(run: Run) -> bool:
    """Whether its brackets are alike from both ends."""
    ahead = sorted(run.held_mm)
    back = sorted(run.length_mm - place for place in ahead)
    return all(abs(one - other) < _EVEN_MM for one, other in zip(ahead, back, strict=True))


def _read(
    build: Build, stood: Stood, runs: tuple[Run, ...], ways: tuple[Condition, ...], *, whole: bool
) -> SpaceFrame:
    found = figures(build, stood, runs, whole=whole)
    brackets = np.abs(bracket_forces_n(stood, whole=whole)).max(axis=-2)
    corners = np.abs(corner_forces(stood))
    long, short = (
        SideFigures(
            free=_bound(found, _rows(ways, "free"), side),
            bead=_bound(found, _rows(ways, "bead"), side),
            held=_bound(found, _rows(ways, "held"), side),
            bracket=_force(_worst(brackets, side)),
            corner=_corner(_worst(corners, side)),
        )
        for side in (0, 1)
    )
    return SpaceFrame(long, short)


def _rows(ways: tuple[Condition, ...], sideways: Sideways) -> list[int]:
    return [row for row, way in enumerate(ways) if way.sideways == sideways]


def _bound(found: Figures, rows: list[int], side: int) -> Bound:
    """Worst of opposite rails and of all conditions of one kind."""
    parts = found.sag_mm, found.sideways_mm, found.twist_deg, found.stress_mpa, found.torsion_mpa
    return Bound(*(float(part[rows, 0, side::2].max()) for part in parts))


def _worst(forces: Array, side: int) -> Array:
    return np.asarray(forces[:, 0, side::2].max(axis=(0, 1)))


def _force(sizes: Array) -> Force:
    return Force(*(float(size) for size in sizes[:3]))


def _corner(sizes: Array) -> CornerForce:
    return CornerForce(_force(sizes), *(float(size) for size in sizes[3:]))
