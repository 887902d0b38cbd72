"""A straight rail on a few hinged brackets, exactly, for many bracket places at once.

Singularity functions: with <x> = max(x, 0) and loads and reactions counted from the left end,

    EI v(x) = sum slope <x-c>^5 / 120 + sum P <x-c>^3 / 6 - sum R <x-s>^3 / 6 + C1 x + C2

v is positive the way the load pushes. The brackets do not sink, forces and moments balance: as many linear
equations as unknown reactions and constants. The rail is taken with length 1, so that the equations stay
well conditioned and one solution serves every length, load and stiffness.

[R] W. Young, R. Budynas, Roark's Formulas for Stress and Strain, chapter 8: singularity functions.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

_GRID = 241
_SEARCH = (61, 61, 121, 121)  # grids of the rounds that close in on the best place


@dataclass(frozen=True, slots=True)
class LineLoad:
    """Load on a rail of length 1: ramps that start at a place with a slope, and point loads."""

    ramps: tuple[tuple[float, float], ...] = ()  #: (where, slope)
    steps: tuple[tuple[float, float], ...] = ()  #: (where, change of load)
    points: tuple[tuple[float, float], ...] = ()  #: (where, force)


@dataclass(frozen=True, slots=True)
class Bent:
    """How rails of length 1 and stiffness 1 bend; first axis: one row for each set of brackets."""

    load: LineLoad
    brackets: Array
    x: Array  #: where
    sag: Array  #: times load L^4 / EI
    reactions: Array  #: times load L; positive against the load

    @property
    def moment(self) -> Array:
        """Bending moment, times load L^2; positive where the loaded face is squeezed."""
        held = np.clip(self.x[:, :, None] - self.brackets[:, None, :], 0, None)
        return np.asarray((held * self.reactions[:, None, :]).sum(axis=2) - _pushed(self.load, self.x, 0))

    @property
    def wave(self) -> Array:
        """Highest less lowest point of the bent rail, brackets at 0: how far it is from straight."""
        return np.asarray(self.sag.max(axis=1) - self.sag.min(axis=1))

    @property
    def most_moment(self) -> Array:
        """Largest bending moment, either sign."""
        return np.asarray(np.abs(self.moment).max(axis=1))


def _orders(load: LineLoad) -> tuple[tuple[float, float, int], ...]:
    """Every load as (where, size, order): moments grow with <x - where>^order / order!."""
    return (
        *((c, size, 3) for c, size in load.ramps),
        *((c, size, 2) for c, size in load.steps),
        *((c, size, 1) for c, size in load.points),
    )


_FACTORIAL = (1, 1, 2, 6, 24, 120)


def _pushed(load: LineLoad, x: Array, more: int) -> Array:
    """Sum over the loads of size <x - where>^n / n!, n = order + `more`; more is 0 for moments, 2 for sag."""
    total = np.zeros_like(x)
    for where, size, order in _orders(load):
        n = order + more
        total += size * np.clip(x - where, 0, None) ** n / _FACTORIAL[n]
    return total


def bend(load: LineLoad, brackets: Array, grid: int = _GRID) -> Bent:
    """Bend a rail of length 1 on each row of bracket places (at least two a row)."""
    rows, count = brackets.shape
    lever = np.clip(brackets[:, :, None] - brackets[:, None, :], 0, None) ** 3 / 6
    equations = np.zeros((rows, count + 2, count + 2))
    equations[:, :count, :count] = -lever
    equations[:, :count, count] = brackets
    equations[:, :count, count + 1] = 1.0
    equations[:, count, :count] = 1.0  # forces balance
    equations[:, count + 1, :count] = 1.0 - brackets  # moments about the right end balance
    right = np.zeros((rows, count + 2))
    end = np.array([1.0])
    right[:, :count] = -_pushed(load, brackets, 2)
    right[:, count] = _pushed(load, end, -1)[0]
    right[:, count + 1] = _pushed(load, end, 0)[0]
    found = np.linalg.solve(equations, right[:, :, None])[:, :, 0]
    reactions, c1, c2 = found[:, :count], found[:, count, None], found[:, count + 1, None]
    even = np.broadcast_to(np.linspace(0, 1, grid), (rows, grid))
    x = np.sort(np.concatenate([even, brackets], axis=1), axis=1)  # moments peak at the brackets
    held = np.clip(x[:, :, None] - brackets[:, None, :], 0, None)
    sag = _pushed(load, x, 2) - (held**3 / 6 * reactions[:, None, :]).sum(axis=2) + c1 * x + c2
    return Bent(load, brackets, x, sag, reactions)


def spread(count: int, from_end: Array) -> Array:
    """Places of `count` brackets, the outer two this far from the ends, the others evenly between."""
    share = np.linspace(0, 1, count)
    return np.asarray(from_end[:, None] + share[None, :] * (1 - 2 * from_end[:, None]))


@dataclass(frozen=True, slots=True)
class Peaks:
    """The largest figures of one rail of length 1 and stiffness 1."""

    wave: float
    moment: float
    reaction: float


@lru_cache(maxsize=4096)
def peaks(load: LineLoad, brackets: tuple[float, ...]) -> Peaks:
    """The largest figures of one rail; kept, because rails of one wall share them."""
    bent = bend(load, np.array([brackets]))
    return Peaks(float(bent.wave[0]), float(bent.most_moment[0]), float(np.abs(bent.reactions).max()))


@lru_cache(maxsize=4096)
def least_sag_from_end(load: LineLoad, count: int, least: float = 0.0) -> float:
    """How far from the ends the outer brackets sag least, as a share of the rail's length. [-]

    An even rail under an even load on two brackets: 0.2232.

    >>> round(least_sag_from_end(LineLoad(steps=((0.0, 1.0),)), 2), 3)
    0.223
    """
    low, high = least, max(0.45, least)
    best = low
    for grid in _SEARCH:
        tries = np.linspace(low, high, 17)
        best = float(tries[int(np.argmin(bend(load, spread(count, tries), grid).wave))])
        step = (high - low) / 16
        low, high = max(least, best - step), best + step
    return best
