"""The frame as four rails in space: what the pane's edges do to it, with every bound of what is not known.

The pane presses on the seat under the middle of the bead's bite and hangs on it there in suction; that line
lies inward of the shear centre, so each rail bends, moves sideways and twists. Down and up are one
reckoning: all is small and straight, so figures grow with the pressure and only their signs turn.

Rails are joined where the lines of their shear centres cross. Three ways of the pane's hold, with the corner
and the brackets' pull along the rail at their worse bound: see space/conditions.py.

Buckling is judged apart (rail_strength.py). Not covered: bending of the legs across (seat and upright keep
their right angle; less than 3 % beside shells, see tests/oracle), warping of channels held at corners.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache, reduce
from typing import Literal

import numpy as np

from panewright.climate.site import Family
from panewright.frame.metals.aluminium import young_pa
from panewright.frame.rail import Rail
from panewright.frame.shape.section import section
from panewright.glass.pane import Pane
from panewright.seal.sealant import Bead
from panewright.structure.drilling.mount import Leg, mount_place
from panewright.structure.rails.edge_load import EdgeLoad, Edges, Table, split_at_45
from panewright.structure.space import compiled
from panewright.structure.space.bounds import AtCorner, Bound, Force, SideFigures, SpaceFrame
from panewright.structure.space.conditions import Condition, Joint, Sideways, conditions
from panewright.structure.space.figures import bracket_forces_n, corner_forces, slides_mm, table
from panewright.structure.space.legs import Legs, bolt_mm_n
from panewright.structure.space.member import Array, Point, member
from panewright.structure.space.ring import Build, Stood, stand_quarters, stand_ring
from panewright.structure.space.run import Run
from panewright.structure.space.worst import ALL, CORNER, COUNT, FORCES, LOOSE, SLIDE

Side = Literal["long", "short"]
_MPA = 1e-6  # megapascal in a pascal
_CORNER_MM = 1.0  # a bracket is no nearer to the corner's own node
_EVEN_MM = 1e-6  # places alike from both ends


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
        return _read(build, stand_quarters(build, (halves,), ways), halves, ways, whole=False)[0]
    four = runs[0], runs[1], runs[0], runs[1]
    return _read(build, stand_ring(build, four, ways), four, ways, whole=True)[0]


def stand_on_each(
    rail: Rail,
    pane: Pane,
    bead: Bead,
    brackets_mm: tuple[tuple[float, ...], ...],
    *,
    family: Family = "ASCE",
    joint: Joint = "mitred",
    edges: Edges = (),
) -> tuple[SpaceFrame, ...]:
    """The frame on each of these sets of brackets, alike from both ends, under the worst of the edges."""
    loads = edges or (split_at_45(pane, 1.0),)
    return _under_each(shape_of(rail), pane, bead, brackets_mm, (family, joint, loads))


@lru_cache(maxsize=256)
def shape_of(rail: Rail) -> Rail:
    """A rail as it bends: its name, alloy and bar left out, which change nothing about that."""
    return replace(rail, name="", alloy="6063-T6", bar_mm=1.0)


def _under_each(
    rail: Rail,
    pane: Pane,
    bead: Bead,
    brackets_mm: tuple[tuple[float, ...], ...],
    under: tuple[Family, Joint, Edges],
) -> tuple[SpaceFrame, ...]:
    family, joint, edges = under
    found = [_on_each(rail, pane, bead, brackets_mm, (family, joint, load)) for load in edges]
    return tuple(reduce(SpaceFrame.worse, frames) for frames in zip(*found, strict=True))


@lru_cache(maxsize=512)
def _on_each(
    rail: Rail,
    pane: Pane,
    bead: Bead,
    brackets_mm: tuple[tuple[float, ...], ...],
    under: tuple[Family, Joint, EdgeLoad],
) -> tuple[SpaceFrame, ...]:
    """Kept, for rails of several alloys bend alike, and a pane's load split at 45 degrees is asked twice."""
    family, joint, load = under
    build = frame_build(rail, pane, bead, family, joint)
    frames = frame_halves(rail, pane, bead, [(held, ()) for held in brackets_mm], load)
    ways = conditions(joint, bead)
    if compiled.loaded():
        return _frames_of(compiled.read_by_loops(build, frames, ways).told)
    return _read(build, stand_quarters(build, frames, ways), frames[0], ways, whole=False)


def outer_mm(side_mm: float, rail: Rail, bead: Bead) -> float:
    """Outer size of the frame along a side of the pane. [mm]"""
    return side_mm + 2 * (bead.gap_mm + rail.wall_mm)


@lru_cache(maxsize=256)
def frame_build(rail: Rail, pane: Pane, bead: Bead, family: Family, joint: Joint) -> Build:
    """The rail as a member, with the lines of bead and bolts from its shear centre.

    Kept, for a search of places asks for the same rail again and again.
    """
    x, y = section(rail).shear_x_mm, section(rail).shear_y_mm
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
    long_mm, short_mm = brackets_mm
    return (
        _run_of(rail, bead, pane.long_mm, (load.long, load.corner_n), long_mm),
        _run_of(rail, bead, pane.short_mm, (load.short, load.corner_n), short_mm),
    )


def frame_halves(
    rail: Rail,
    pane: Pane,
    bead: Bead,
    sets_mm: Sequence[tuple[tuple[float, ...], tuple[float, ...]]],
    load: EdgeLoad,
) -> tuple[tuple[Run, Run], ...]:
    """First halves of both rails on each of these sets of brackets, alike from both ends.

    A rail that stands in several of the sets is made once: a search moves one bracket at a time.
    """
    halves, inset = _bare_halves(rail, pane, bead, load), section(rail).shear_x_mm
    along, across = (
        {at: half.held(_inside(at, inset, 2 * half.length_mm)) for at in {each[side] for each in sets_mm}}
        for side, half in enumerate(halves)
    )
    return tuple((along[long], across[short]) for long, short in sets_mm)


@lru_cache(maxsize=256)
def _bare_halves(rail: Rail, pane: Pane, bead: Bead, load: EdgeLoad) -> tuple[Run, Run]:
    """Both halves on no brackets at all; kept, for brackets are tried in many places under one load."""
    long, short = frame_runs(rail, pane, bead, ((), ()), load)
    return long.half(), short.half()


def _inside(places_mm: tuple[float, ...], inset_mm: float, length_mm: float) -> tuple[float, ...]:
    """Places from a rail's left end told from its shear centre's corner, none at that corner itself."""
    most = length_mm - _CORNER_MM
    return tuple(min(max(place - inset_mm, _CORNER_MM), most) for place in places_mm)


def _run_of(
    rail: Rail, bead: Bead, side_mm: float, load: tuple[Table, float], held_mm: tuple[float, ...]
) -> Run:
    """The rail along a side of the pane, with that load and force of the pane's corner.

    The force of a pane's corner is shared by its two rails.
    """
    inset = section(rail).shear_x_mm
    start, (line, corner_n) = bead.gap_mm + rail.wall_mm - inset, load
    length = side_mm + 2 * start
    within, points = _loaded(length, start, line, corner_n / 2)
    return Run(length, within, _inside(held_mm, inset, length), points)


@lru_cache(maxsize=256)
def _loaded(length: float, start: float, table: Table, corner_n: float) -> tuple[Table, Table]:
    """Load along one side and at its corners; kept, for brackets are tried in many places under it."""
    load, beyond = _within(tuple((start + at, line) for at, line in table), length)
    corners = beyond + corner_n
    ends = load[0][0], load[-1][0]
    return load, tuple((end, corners) for end in ends) if corners else ()


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
) -> tuple[SpaceFrame, ...]:
    """All frames; `runs` are those of any one of them."""
    found = table(build, stood, runs, whole=whole)
    bounds = [found[_rows(ways, sideways)].max(axis=0) for sideways in ("free", "bead", "held")]
    corners = np.abs(corner_forces(stood)).max(axis=0)
    told = np.concatenate([*bounds, _held(build, stood, ways, whole=whole), corners], axis=-1)
    return _frames_of(
        np.stack([told[:, side::2].max(axis=1) for side in (0, 1)], axis=1)
    )  # of opposite rails


def _held(build: Build, stood: Stood, ways: tuple[Condition, ...], *, whole: bool) -> Array:
    """Three forces at brackets, the same of a pane not held rigid, slide; axes (frames, runs, 7)."""
    force = np.abs(bracket_forces_n(stood, whole=whole)).max(axis=-2)
    loose = [row for row, way in enumerate(ways) if way.sideways != "held"]
    slide = slides_mm(build, stood)[loose].max(axis=(0, -1))
    return np.concatenate([force.max(axis=0), force[loose].max(axis=0), slide[..., None]], axis=-1)


def _rows(ways: tuple[Condition, ...], sideways: Sideways) -> list[int]:
    return [row for row, way in enumerate(ways) if way.sideways == sideways]


def _frames_of(told: Array) -> tuple[SpaceFrame, ...]:
    """Out of axes (frames, sides, figures in the order of `worst.worst`)."""
    return tuple(SpaceFrame(*map(_side, frame)) for frame in told.tolist())


def _side(told: list[float]) -> SideFigures:
    free, bead, held = (Bound(*told[at : at + COUNT]) for at in range(0, FORCES, COUNT))
    moments = told[CORNER + 3 : ALL]
    return SideFigures(
        free,
        bead,
        held,
        Force(*told[FORCES:LOOSE]),
        Force(*told[LOOSE:SLIDE]),
        AtCorner(Force(*told[CORNER : CORNER + 3]), *moments),
        told[SLIDE],
    )
