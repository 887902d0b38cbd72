"""Frames solved by compiled loops, in a process that designs many: a third of the time, the same figures.

Loading the compiler takes half a second and the first compilation on a machine some seconds, so a single
design never does: there `joining` solves its few frames. Both leave the same last digits open, those that the
long chain of short members costs.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence, Sized
from functools import cache, lru_cache
from itertools import accumulate
from pathlib import Path
from types import FunctionType, ModuleType
from typing import Any

import numpy as np
from numpy.typing import NDArray

from panewright.compiling import code_folder, in_turn
from panewright.structure.space import block, cuts, looks
from panewright.structure.space.conditions import Condition
from panewright.structure.space.element import TURNED, Members, loads_of, shapes_of
from panewright.structure.space.joining import Rows, maps
from panewright.structure.space.member import Array, Member, Point
from panewright.structure.space.mesh import LEAST, Mesh, Rail
from panewright.structure.space.run import Run

Loops = dict[str, Callable[..., object]]
ENTRIES = {
    "cut": cuts,
    "membered": block,
    "stood": block,
    "read": looks,
}  #: loops that are called, and where they stand
_MODULES = cuts, block, looks
_here: Loops = {}  # what this process has loaded


def load() -> None:
    """From here on this process has its frames solved by compiled loops."""
    if not _here:
        _here.update(compiled())


def loaded() -> bool:
    """Whether it has."""
    return bool(_here)


def mesh_by_loops(runs: Sequence[Run], rail: Rail) -> Mesh:
    """What `mesh.mesh` gives of halves of rails."""
    tables, held = [_columns(run.load) for run in runs], [run.held_mm for run in runs]
    points = [run.points for run in runs]
    kinks = max(map(len, tables)) + max(map(len, held)) + max(map(len, points)) + 3
    wide = len(runs), max(kinks, LEAST[False] + 1)
    place, first, last, pushed, seat = (np.empty(wide) for _ in range(5))
    brackets, alone = np.empty(wide, dtype=bool), np.empty(wide, dtype=bool)
    members: Any = _here["cut"](
        np.array([run.length_mm for run in runs]),
        (np.concatenate(tables), _ends(tables)),
        (np.array([one for each in held for one in each], dtype=float), _ends(held)),
        (np.array([one for each in points for one in each]).reshape(-1, 2), _ends(points)),
        (rail.stiff_mm, rail.room_mm),
        LEAST[False],
        (np.empty(wide), np.empty(len(runs), dtype=np.intp), np.empty((2, wide[1]))),
        place,
        (first, last),
        pushed,
        brackets,
        alone,
        seat,
    )

    def as_many(table: Any, beyond: int = 0) -> Any:
        return np.ascontiguousarray(table[:, : members + beyond])

    return Mesh(
        as_many(place, 1),
        (as_many(first), as_many(last)),
        as_many(pushed, 1),
        as_many(brackets, 1),
        as_many(alone, 1),
        as_many(seat),
        whole=False,
    )


@lru_cache(maxsize=256)
def _columns(load: tuple[Point, ...]) -> Array:
    """A load's places and sizes; kept, for brackets are tried in many places under it."""
    return np.array(load)


def _ends(rows: Sequence[Sized]) -> NDArray[np.intp]:
    """Where each begins, one after the other, and where the last ends."""
    return np.array([0, *accumulate(map(len, rows))])


def members_by_loops(
    member: Member, lengths: Array, line: tuple[Array, Array], *, seat: Array, spring: Array, bead: Point
) -> Members:
    """What `element.members` gives."""
    shape = len(spring), *lengths.shape
    parts = Members(np.empty((*shape, 12, 12)), np.empty((*shape, 12)))
    _here["membered"](
        _stiff(member),
        seat,
        lengths,
        line,
        loads_of(bead[0]),
        shapes_of(member.centroid_mm, bead),
        spring,
        TURNED,
        (np.empty(9), np.empty(256), np.empty((16, 17))),
        parts.stiffness,
        parts.push,
    )
    return parts


@lru_cache(maxsize=64)
def _stiff(member: Member) -> Array:
    """Of a section and its metal what bends, twists, shears and stretches."""
    e, g = member.young_mpa, member.shear_mpa
    bent = e * member.iy_mm4, e * member.ix_mm4, e * member.ixy_mm4
    sheared = (g * area for area in member.shear_area_mm2)
    return np.array([*bent, g * member.j_mm4, *sheared, e * member.area_mm2])


def solved_by_nodes(
    net: Mesh,
    parts: Members,
    points: Array,
    bolts: tuple[Point, Point],
    rows: Rows,
    ways: tuple[Condition, ...],
) -> tuple[Array, Array]:
    """Movements at the shear centre, (conditions, runs, nodes, 6), and forces on both ends of each member.

    For runs that end in the middle of their rails. `bolts` are their place and what they give.
    """
    place, gives = bolts
    shape = len(ways), len(rows.runs), net.held.shape[-1]
    moved, ends = np.empty((*shape, 6)), np.empty((*shape[:2], shape[2] - 1, 12))
    _here["stood"](
        parts.stiffness,
        parts.push,
        points,
        net.held,
        net.alone,
        np.array(gives),
        np.array(place),
        rows.ways,
        np.array([way.turn_nmm for way in ways]),
        np.array([way.along for way in ways]),
        rows.runs,
        maps(False),
        _rooms(len(parts.stiffness), net),
        moved,
        ends,
    )
    return moved, ends


def read_by_loops(
    stood: tuple[Array, Array, Array, Array],
    under: Array,
    mixed: Array,
    rail: tuple[Any, ...],
    shape: Array,
    *,
    sag_only: bool,
) -> Array:
    """Figures of every run, axes (conditions, frames, runs, figures as `looks` names them).

    `stood` are places, movements, forces at ends and seats; the others as `looks.read` has them.
    """
    told = np.zeros((*stood[1].shape[:3], 6))
    _here["read"](*stood, under, mixed, rail, shape, sag_only, told)
    return told


def _rooms(springs: int, net: Mesh) -> tuple[Array, ...]:
    runs, nodes = net.held.shape
    each = springs, 2, runs
    return (
        np.empty((nodes, 6, 6)),
        np.empty((nodes - 1, 6, 6)),
        np.empty((nodes, 6)),
        np.empty((*each, nodes - 1, 6, 7)),
        np.empty((*each, 6, 6)),
        np.empty((*each, 6)),
        np.zeros(each),
        np.empty((4, 8, 8)),
    )


@cache
def compiled() -> Loops:
    """The loops compiled on first use; those as written stay as they are.

    A division by zero is numpy's, and no function makes an array, so nobody counts who holds one.
    """
    import numba

    folder = str(code_folder((__file__, *(str(module.__file__) for module in _MODULES))))
    setattr(numba.config, "CACHE_DIR", folder)  # noqa: B010 - it has no such name until it is set
    options: dict[str, Any] = {"cache": True, "error_model": "numpy", "_nrt": False}
    way: Callable[[FunctionType], Callable[..., object]] = numba.njit(**options)
    made = {module: _of(module, way) for module in _MODULES}
    return {
        name: in_turn(made[module][name], Path(folder), str(module.__file__))
        for name, module in ENTRIES.items()
    }


def _of(module: ModuleType, way: Callable[[FunctionType], Callable[..., object]]) -> Loops:
    """A module's functions compiled, each with those before it that it calls."""
    names: dict[str, Any] = dict(vars(module))
    for name, each in vars(module).items():
        if isinstance(each, FunctionType) and each.__module__ == module.__name__:
            twin = FunctionType(each.__code__, names, name, each.__defaults__)
            twin.__module__, twin.__qualname__ = module.__name__, name
            names[name] = way(twin)
    return names
