"""How a pane bends under an even pressure, however far: one load path per aspect ratio.

Dimensionless, with b the short side: Q = q b^4/(E t^4), deflection w/t, stress s b^2/(E t^2). Small Q gives
the thin-plate theory of `linear`; past w/t of about a half the pane stretches like a skin, stiffer than
that theory says; the largest stress leaves the middle near Q = 30 and ends beside a corner or on the long
edge.

Small loads need few functions, so the path has levels: up to Q = 200 some 100 functions, up to 1200 some 200,
then up to 450. Each level begins where the one before it ends, with the same state written in more functions
and brought into balance; the polynomials are such that a longer list begins with the shorter one. Against 600
functions all the way, for a/b from 1 to 4: w within 1e-6, stress at the middle 2e-4, peak 3e-3 up to 1200.

Where it ends: the compressed rim of a very slack pane wrinkles and the path turns back. `limit` is drawn at
0.85 of that turning point or less: Q = 6000 up to a/b = 1.75, 5500 at 2, 2200 at 4, 900 at 6. Compared with
half as many functions again: w agrees to 1e-6, the flaw integral to 1e-4; the peak at 0.97 of the limit to
0.1 %, from a/b = 1.5 to 2.25 to 0.3 %.

States that most panes ask for stand in the `almanac`; elsewhere the path is walked.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from panewright.glass.plate.almanac.states import FIRST, SECOND
from panewright.glass.plate.almanac.states import state as kept_state
from panewright.glass.plate.basis import Array
from panewright.glass.plate.equations import PlateEquations
from panewright.glass.plate.faces import Faces
from panewright.glass.plate.stretch import State, Stretch, settled, stretch_from

WIDEST = 6.0  #: largest ratio of the sides that was tried
FINEST = 2  #: the row of functions that is taken where things change fast
_LIMIT = (  # a/b, largest Q for nu = 0.22: 0.85 of the turning point, and no more than 6000
    (1.0, 6000.0),
    (1.75, 6000.0),
    (2.0, 5500.0),
    (2.5, 4100.0),
    (3.0, 3200.0),
    (3.5, 2600.0),
    (4.0, 2200.0),
    (5.0, 1500.0),
    (6.0, 900.0),
)


_FUNCTIONS = (  # for each level: up to this a/b, so many along the long side and along the short one
    ((1.25, (8, 8)), (2.1, (12, 8)), (3.0, (14, 8)), (WIDEST, (16, 10))),
    ((1.1, (10, 10)), (2.0, (14, 12)), (2.5, (16, 12)), (3.0, (18, 12)), (4.0, (24, 13)), (WIDEST, (28, 16))),
    ((1.25, (16, 16)), (2.25, (20, 15)), (4.0, (26, 16)), (WIDEST, (28, 16))),
)


def scale(poisson: float) -> float:
    """Deflection of the scaled equations to w/t: 1/sqrt(12 (1 - nu^2)). [-]"""
    return float(1 / np.sqrt(12 * (1 - poisson**2)))


_TOPS = (FIRST, SECOND, np.inf)  # scaled load at which a level ends
_Kept = Callable[[float, int, float], State | None]  # of a ratio of the sides, a level and a load


@dataclass(frozen=True, slots=True)
class _Place:
    """A state, and how many functions each way it is written in."""

    counts: tuple[int, int]
    state: State


class _Level:
    """The path in so many functions, from a state on, as far as it has been needed; it only ever grows."""

    def __init__(self, aspect: float, counts: tuple[int, int], start: _Place | None) -> None:
        self.equations = PlateEquations(aspect, *counts)
        still = np.zeros(self.equations.push.size)
        first = State(0.0, still, still)
        if start is not None:
            first = settled(self.equations, _widened(start, counts))
        self.stretches: list[Stretch] = [stretch_from(self.equations, first)]

    def at_load(self, load: float) -> _Place:
        while self.stretches[-1].top < load:
            last = self.stretches[-1]
            self.stretches.append(stretch_from(self.equations, last.state(last.reach)))
        part = next(part for part in self.stretches if load <= part.top)
        return _Place(self.equations.counts, part.at_load(load))


def _widened(place: _Place, counts: tuple[int, int]) -> State:
    """The same state in more functions: the further ones have no share yet."""

    def wide(few: Array) -> Array:
        many = np.zeros(counts)
        many[: place.counts[0], : place.counts[1]] = few.reshape(place.counts)
        return many.ravel()

    return State(place.state.load, wide(place.state.w), wide(place.state.f))


class _Path:
    """The scaled path of one aspect ratio: few functions for small loads, more where more are needed."""

    def __init__(self, aspect: float, steps: tuple[int, ...], kept: _Kept) -> None:
        self.aspect = aspect
        self.steps = steps  # which rows of functions it goes through
        self.kept = kept
        self.levels: dict[int, _Level] = {}  # those that are walked

    def at_load(self, load: float) -> _Place:
        step = next(step for step in self.steps if load <= _TOPS[step])
        known = self.kept(self.aspect, step, load)
        if known is not None:
            return _Place(functions(self.aspect, step), known)
        return self._level(step).at_load(load)

    def _level(self, step: int) -> _Level:
        if step not in self.levels:
            before = [each for each in self.steps if each < step]
            start = self.at_load(_TOPS[before[-1]]) if before else None
            self.levels[step] = _Level(self.aspect, functions(self.aspect, step), start)
        return self.levels[step]


def functions(aspect: float, step: int) -> tuple[int, int]:
    """How many functions each way; see the module's words on convergence."""
    return next(counts for widest, counts in _FUNCTIONS[step] if aspect <= widest)


def _none(_aspect: float, _step: int, _load: float) -> None:
    """No state is kept: all of the path is walked."""


@lru_cache(maxsize=32)
def _path(aspect: float, steps: tuple[int, ...], kept: _Kept) -> _Path:
    return _Path(aspect, steps, kept)


class LoadPath:
    """Every state from no load to the limit, for one ratio of the sides (long over short)."""

    def __init__(self, aspect: float, poisson: float, steps: tuple[int, ...], kept: _Kept) -> None:
        if not 1 <= aspect <= WIDEST:
            raise ValueError(f"a path is known for ratios of the sides from 1 to {WIDEST:g}, not {aspect:g}")
        if not 0 <= poisson < 0.5:
            raise ValueError(f"Poisson's ratio lies between 0 and 0.5, not at {poisson:g}")
        self.aspect, self.poisson = aspect, poisson
        self._path = _path(round(aspect, 12), steps, kept)
        self._scale = scale(poisson)
        ratios, loads = zip(*_LIMIT, strict=True)
        at_glass = float(np.interp(aspect, ratios, loads))
        self.limit = at_glass * (self._scale / scale(0.22)) ** 3  #: largest Q at which the path is known [-]

    @property
    def stretches(self) -> tuple[Stretch, ...]:
        """Parts of the path walked so far."""
        return tuple(part for level in self._path.levels.values() for part in level.stretches)

    def faces(self, q: float) -> Faces:
        """Deflection and stresses at Q."""
        if not 0 <= q <= self.limit * (1 + 1e-12):
            raise ValueError(
                f"a/b = {self.aspect:.3g} is known for Q from 0 to {self.limit:.4g}, not {q:.4g}"
            )
        place = self._path.at_load(q / self._scale**3)
        return Faces(self.aspect, self.poisson, place.counts, place.state, self._scale)


@lru_cache(maxsize=64)
def load_path(aspect: float, poisson: float = 0.22) -> LoadPath:
    """The load path of an aspect ratio; paths are kept, so asking again costs nothing.

    >>> round(load_path(1.5).faces(100).centre_deflection, 4)
    3.7256
    """
    return LoadPath(aspect, poisson, (0, 1, 2), kept_state)


@lru_cache(maxsize=64)
def walked_path(aspect: float, poisson: float = 0.22, *, fine: bool = False) -> LoadPath:
    """The same walked from no load on, the almanac not asked.

    A fine one has all its functions from the first load on: for what changes fast beside the edges.

    >>> round(walked_path(1.5).faces(100).centre_deflection, 4)
    3.7256
    """
    return LoadPath(aspect, poisson, (FINEST,) if fine else (0, 1, 2), _none)
