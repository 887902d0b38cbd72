"""Frames solved by compiled loops, in a process that designs many: a third of the time, the same figures.

Loading the compiler takes half a second and the first compilation on a machine some seconds, so a single
design never does: there `joining` solves its few frames. Both leave the same last digits open, those that the
long chain of short members costs.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence, Sized
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import accumulate
from pathlib import Path
from types import FunctionType, ModuleType
from typing import Any

import numpy as np
from numpy.typing import NDArray

from panewright.compiling import code_folder, in_turn
from panewright.structure.space import block, cuts, looks, worst
from panewright.structure.space.conditions import HELD_MPA, Condition, Sideways
from panewright.structure.space.element import TURNED, loads_of, shapes_of
from panewright.structure.space.figures import CUBIC, LEVEL_MM
from panewright.structure.space.joining import maps
from panewright.structure.space.member import Array, Point
from panewright.structure.space.mesh import LEAST
from panewright.structure.space.ring import Build, kinds, nonsense, springs
from panewright.structure.space.run import Run

Loops = dict[str, Callable[..., object]]
_MODULES = cuts, block, looks, worst  # each calls only what stands in those before it
_BOUNDS: tuple[Sideways, ...] = "free", "bead", "held"
_TWISTS = [worst.COUNT * bound + looks.TWIST for bound in range(3)]
_here: Loops = {}  # what this process has loaded


def load() -> None:
    """From here on this process has its frames solved by compiled loops."""
    if not _here:
        _here.update(compiled())


def loaded() -> bool:
    """Whether it has."""
    return bool(_here)


@dataclass(frozen=True, slots=True)
class Read:
    """What the loops read off frames, and how these stand, in rooms that may be wider than they are."""

    told: Array  #: axes (frames, sides, figures in the order of `worst.worst`); twist in degrees
    members: int  #: of each run
    net: worst.Cut
    moved: Array  #: of the shear centre, (conditions, runs, nodes, 6)
    ends: Array  #: forces on both ends of each member, (conditions, runs, members, 12)

    @property
    def sag_mm(self) -> Array:
        """The largest of each side, whatever holds the pane; axes (frames, sides). [mm]"""
        return np.asarray(self.told[..., looks.SAG : worst.FORCES : worst.COUNT].max(axis=-1))


def read_by_loops(
    build: Build, frames: Sequence[tuple[Run, Run]], ways: tuple[Condition, ...], *, sag_only: bool = False
) -> Read:
    """The worst of both sides of each frame, by the halves of a long and a short rail that meet in a corner.

    Where only the sag is asked the other figures are left at nothing.
    """
    runs, which = kinds([run for frame in frames for run in frame])
    member, bolts, conditions, rail = _frame(build, ways)
    net = net_for(runs)
    shape = len(ways), len(which), net[1].shape[1]
    moved, ends = np.empty((*shape, 6)), np.empty((*shape[:2], shape[2] - 1, 12))
    told = np.empty((len(frames), 2, worst.ALL))
    count: Any = _here["worst"](
        *told_of(runs, build),
        member,
        bolts,
        conditions,
        (which, maps(False)),
        rail,
        sag_only,
        _rooms(net, len(member[3])),
        moved,
        ends,
        told,
    )
    if not count:
        raise ValueError(nonsense(build, frames))
    told[..., _TWISTS] = np.degrees(told[..., _TWISTS])
    return Read(told, count, net, moved, ends)


def told_of(runs: Sequence[Run], build: Build) -> tuple[Any, ...]:
    """What `cuts.cut` asks of halves of rails."""
    tables = [_columns(run.load) for run in runs]
    return (
        np.array([run.length_mm for run in runs]),
        (np.concatenate(tables), _ends(tables)),
        _rows([run.held_mm for run in runs]),
        _rows([run.points for run in runs], 2),
        (build.stiff_mm, 2 * max(map(abs, build.bolt_mm))),
        LEAST[False],
    )


def net_for(runs: Sequence[Run]) -> worst.Cut:
    """Room for these runs cut into members, as many as there may be at most."""
    most = max(len(run.load) + len(run.held_mm) + len(run.points) for run in runs)
    shape = len(runs), max(most + 3, LEAST[False] + 1)
    place, first, last, pushed, seat = (np.empty(shape) for _ in range(5))
    brackets, alone = np.empty(shape, dtype=bool), np.empty(shape, dtype=bool)
    work = np.empty(shape), np.empty(shape[0], dtype=np.intp), np.empty((2, shape[1]))
    return work, place, (first, last), pushed, brackets, alone, seat


@lru_cache(maxsize=256)
def _columns(load: tuple[Point, ...]) -> Array:
    """A load's places and sizes; kept, for brackets are tried in many places under it."""
    return np.array(load)


def _rows(each: Sequence[tuple[Any, ...]], *wide: int) -> tuple[Array, NDArray[np.intp]]:
    """All of them one after the other, and where each begins and the last ends."""
    return np.array([one for some in each for one in some], dtype=float).reshape(-1, *wide), _ends(each)


def _ends(rows: Sequence[Sized]) -> NDArray[np.intp]:
    """Where each begins, one after the other, and where the last ends."""
    return np.array([0, *accumulate(map(len, rows))])


@lru_cache(maxsize=256)
def _frame(build: Build, ways: tuple[Condition, ...]) -> tuple[tuple[Any, ...], ...]:
    """What `worst.worst` asks of member, bolts, conditions and rail; kept, as runs change under them."""
    spring, held = springs(ways)
    bolts = np.array(build.bolt_mm), np.array(build.bolt_mm_n)
    turn, along = np.array([way.turn_nmm for way in ways]), np.array([way.along for way in ways])
    bounds = np.array([_BOUNDS.index(way.sideways) for way in ways])
    conditions = held, turn, along, bounds, _mixed(build, ways)
    return (*_member(build), spring, TURNED), bolts, conditions, _rail(build)


def _member(build: Build) -> tuple[Array, Array, Array]:
    """Of a section and its metal what bends, twists, shears and stretches; loads and fixed matrices."""
    member, bead = build.member, build.bead_mm
    e, g = member.young_mpa, member.shear_mpa
    bent = e * member.iy_mm4, e * member.ix_mm4, e * member.ixy_mm4
    sheared = (g * area for area in member.shear_area_mm2)
    stiff = np.array([*bent, g * member.j_mm4, *sheared, e * member.area_mm2])
    return stiff, loads_of(bead[0]), shapes_of(member.centroid_mm, bead)


def _mixed(build: Build, ways: tuple[Condition, ...]) -> Array:
    """Moment sideways over that across, where a line at the shear centre's height is held; else no number."""
    level, member = abs(build.bead_mm[1]) < LEVEL_MM, build.member
    ratio = member.ixy_mm4 / member.ix_mm4
    return np.array([ratio if level and way.spring_mpa >= HELD_MPA else np.nan for way in ways])


def _rail(build: Build) -> tuple[Any, ...]:
    """What of a rail tells its figures."""
    member = build.member
    return (
        np.array(build.bead_mm),
        np.array(member.centroid_mm),
        member.stress_rows,
        np.array(member.shear_area_mm2),
        member.shear_mpa * member.j_mm4,
        member.torsion_mm3,
        CUBIC,
    )


def _rooms(net: worst.Cut, springs: int) -> tuple[Any, ...]:
    """Room for members, for what solves them, and for the figures of one run."""
    runs, wide = net[1].shape
    members, each = (springs, runs, wide - 1), (springs, 2, runs)
    solving = (
        np.empty((wide, 6, 6)),
        np.empty((wide - 1, 6, 6)),
        np.empty((wide, 6)),
        np.empty((*each, wide - 1, 6, 7)),
        np.empty((*each, 6, 6)),
        np.empty((*each, 6)),
        np.empty(each),
        np.empty((4, 8, 8)),
    )
    works = np.empty(9), np.empty(256), np.empty((16, 17))
    return net, works, (np.empty((*members, 12, 12)), np.empty((*members, 12))), solving, np.empty(6)


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
    made: Loops = {}
    for module in _MODULES:
        made.update(_of(module, way, made))
    return {"worst": in_turn(made["worst"], Path(folder), str(worst.__file__))}


def _of(module: ModuleType, way: Callable[[FunctionType], Callable[..., object]], made: Loops) -> Loops:
    """A module's functions compiled, each with those before it that it calls, here and in others."""
    names: dict[str, Any] = dict(vars(module))
    names.update((name, made[name]) for name in names if name in made)
    found: Loops = {}
    for name, each in vars(module).items():
        if isinstance(each, FunctionType) and each.__module__ == module.__name__:
            twin = FunctionType(each.__code__, names, name, each.__defaults__)
            twin.__module__, twin.__qualname__ = module.__name__, name
            names[name] = found[name] = way(twin)
    return found
