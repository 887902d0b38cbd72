"""A frame of rails under its load: a quarter of one alike both ways, or the whole ring."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import chain

import numpy as np
from numpy.typing import NDArray

from panewright.structure.space import holds
from panewright.structure.space.conditions import Condition
from panewright.structure.space.element import Members, members
from panewright.structure.space.joining import Rows, assembled, solved, strike
from panewright.structure.space.member import Array, Member, Point
from panewright.structure.space.mesh import Flags, Mesh, Rail, mesh
from panewright.structure.space.run import Run


@dataclass(frozen=True, slots=True)
class Build:
    """What all runs share: the rail, and where bead and bolts lie, inward and up from the shear centre."""

    member: Member
    bead_mm: Point
    bolt_mm: Point
    bolt_mm_n: Point = (0.0, 0.0)  #: what a bolt's force moves its own place, sideways and across
    stiff_mm: float = 0.0  #: from a welded corner, where seats joined to one plate keep flat and straight


@dataclass(frozen=True, slots=True)
class Stood:
    """How runs stand under their load; axes (conditions, frames, runs, ...)."""

    place_mm: Array  #: of nodes, (frames, runs, nodes)
    moved: Array  #: of the shear centre, three ways and three turns [mm], [rad]
    ends: Array  #: forces on both ends of each member [N], [N mm]
    held: Flags  #: whether a node is a bracket's, (frames, runs, nodes)
    seat: Array  #: how much stiffer against twist a member is than the rail alone, (frames, runs, members)
    spring_mpa: Array  #: of the pane's hold in each condition


def stand_quarters(build: Build, frames: tuple[tuple[Run, Run], ...], ways: tuple[Condition, ...]) -> Stood:
    """Frames alike both ways: each by the halves of a long and of a short rail that meet in a corner."""
    return _stand(build, frames, ways, whole=False)


def stand_ring(build: Build, runs: tuple[Run, Run, Run, Run], ways: tuple[Condition, ...]) -> Stood:
    """Any four rails, one after the other round the frame."""
    return _stand(build, (runs,), ways, whole=True)


def _stand(
    build: Build, frames: tuple[tuple[Run, ...], ...], ways: tuple[Condition, ...], whole: bool
) -> Stood:
    every = [run for frame in frames for run in frame]
    runs, which = (every, np.arange(len(every))) if whole else kinds(every)
    net = mesh(runs, Rail(build.stiff_mm, 2 * max(map(abs, build.bolt_mm)), whole))
    own, held = springs(ways)
    rows, lengths = Rows(held, which), np.diff(net.place_mm)
    parts = members(build.member, lengths, net.line_n_mm, seat=net.seat, spring=own, bead=build.bead_mm)
    points, bolts = _pushed(net, build.bead_mm[0]), (build.bolt_mm, build.bolt_mm_n)
    moved = _moved(net, parts, points, bolts, rows, (ways, len(frames)))
    ends = _end_forces(parts.of(rows.ways, rows.runs), moved)
    if not (np.isfinite(moved).all() and np.isfinite(ends).all()):
        raise ValueError(nonsense(build, frames))
    return _sorted(net.of(which), moved, ends, own[held], len(frames))


def nonsense(build: Build, frames: Sequence[tuple[Run, ...]]) -> str:
    """Says which frame has no answer.

    By the first run in which a figure is none, else the first of all, and what its rail resists.
    """
    runs = [run for frame in frames for run in frame]
    run = next((run for run in runs if not np.isfinite([*chain(*run.load), *run.held_mm]).all()), runs[0])
    line = [n_mm for _, n_mm in run.load]
    strange = next((n_mm for n_mm in line if not np.isfinite(n_mm)), max(line))
    held, member = [round(each, 1) for each in run.held_mm], build.member
    return (
        f"this frame has no finite answer: {run.length_mm:g} mm of rail on brackets at {held} mm, "
        f"pressed by {strange:g} N/mm; "
        f"Ix {member.ix_mm4:g}, Iy {member.iy_mm4:g}, J {member.j_mm4:g} mm4"
    )


def _moved(
    net: Mesh,
    parts: Members,
    points: Array,
    bolts: tuple[Point, Point],
    rows: Rows,
    asked: tuple[tuple[Condition, ...], int],
) -> Array:
    """Movements at the shear centre, axes (conditions, runs, nodes, 6)."""
    (place, gives), (ways, frames) = bolts, asked
    shift = holds.shifts(net, place)
    matrix, push = assembled(parts, shift, points)
    diagonal = np.arange(matrix.shape[-1])
    matrix[..., diagonal, diagonal] += holds.given(net, gives).reshape(len(shift), -1)
    strike(matrix, push, holds.free(net, gives))
    turn, stops = np.array([way.turn_nmm for way in ways]), holds.stops(net, ways)
    moved = solved(matrix, push, rows, stops, turn, frames=frames, whole=net.whole)
    return np.asarray((shift[rows.runs][None] @ moved[..., None])[..., 0])


@lru_cache(maxsize=64)
def springs(ways: tuple[Condition, ...]) -> tuple[Array, NDArray[np.intp]]:
    """The pane's holds that differ, and which of them each condition has."""
    every = [way.spring_mpa for way in ways]
    own = list(dict.fromkeys(every))
    return np.array(own), np.array([own.index(each) for each in every])


def kinds(runs: list[Run]) -> tuple[list[Run], NDArray[np.intp]]:
    """Runs that are alike once, and each one's kind: frames of a search differ in one rail only.

    Not for a ring: where nothing else does, one bracket of one of its runs keeps all of it from sliding.
    """
    numbers: dict[Run, int] = {}
    which = [numbers.setdefault(run, len(numbers)) for run in runs]
    return list(numbers), np.array(which)


def _pushed(net: Mesh, lever: float) -> Array:
    """Forces of single places at their nodes: down, and the twist of their lever."""
    push = np.zeros((*net.points_n.shape, 6))
    push[..., 2], push[..., 3] = -net.points_n, -net.points_n * lever
    return push


def _end_forces(parts: Members, moved: Array) -> Array:
    """Forces on both ends of each member."""
    pair = np.concatenate([moved[..., :-1, :], moved[..., 1:, :]], axis=-1)
    return np.asarray((parts.stiffness @ pair[..., None])[..., 0] - parts.push)


def _sorted(net: Mesh, moved: Array, ends: Array, spring: Array, frames: int) -> Stood:
    """Runs sorted by their frames."""
    split = frames, len(net.held) // frames
    return Stood(
        net.place_mm.reshape(*split, -1),
        moved.reshape(len(spring), *split, *moved.shape[2:]),
        ends.reshape(len(spring), *split, *ends.shape[2:]),
        net.held.reshape(*split, -1),
        net.seat.reshape(*split, -1),
        spring,
    )
