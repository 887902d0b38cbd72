"""What a few smooth functions miss beside a patch or a clip, put back exactly.

A force on a small patch bends the plate sharply under it. That sharpness is linear: what the skin adds,
[w, F], is smooth. So the path is walked with a few functions, and to its state is added, for each patch with
the force it bears there, the linear plate's answer in many functions less the one in those few:

    w = w(few, far bent) + sum of R (w(many, linear) - w(few, linear))

Where two opposite sides are held: a sine series across, each term with its own small system along the other
way, one for what is even about the middle and one for what is odd; a patch on a middle line asks for one of
them and for every other sine. Where none is held: many polynomials, one parity at a time, on a soft even
bedding, which holds the plate in both answers and drops out of their difference.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Protocol

import numpy as np

from panewright.glass.plate.axis import Axis, Parity, axis
from panewright.glass.plate.basis import Array, Basis
from panewright.glass.plate.shape import Shape, Spot, bending_matrix, mass_matrix, spot_row
from panewright.glass.plate.stretch import Give

_BEDDING = 100.0  # D/b^4: about the stiffness of the plate itself
_LEAST_SINES, _MOST_SINES = 60, 400
_ALONG = 64  # polynomials along the other way
_MORE = 8  # functions more than the few ones at least
_FINE = (30, 52)  # fewest and most functions each way and parity where no side is held


class Bump(Protocol):
    """The linear plate under a force of 1 on one patch."""

    def at(self, x: Array, y: Array) -> Array:
        """w, w,xx, w,yy and w,xy at shares of the half sides."""

    def mean(self, spot: Spot) -> float:
        """Mean deflection over a patch."""


@dataclass(frozen=True, slots=True)
class _Sum:
    """Polynomials each way."""

    x: Axis
    y: Axis
    share: Array

    def at(self, x: Array, y: Array) -> Array:
        return products((self.x.tables(x)[0], self.y.tables(y)[0]), self.share)

    def mean(self, spot: Spot) -> float:
        return float(spot_row(self.x, self.y, spot) @ self.share.ravel())


@dataclass(frozen=True, slots=True)
class _Sines:
    """Sines along the way whose ends are held, polynomials along the other."""

    other: Axis
    wave: Array  #: m pi over the length
    length: float
    share: Array  #: a row per sine
    turned: bool  #: sines along y

    def at(self, x: Array, y: Array) -> Array:
        along, across = (y, x) if self.turned else (x, y)
        angle = np.multiply.outer((np.asarray(along) + 1) * self.length / 2, self.wave)
        sine, cosine = np.sin(angle), np.cos(angle) * self.wave
        value, slope, curvature = (table.T for table in self.other.tables(np.asarray(across))[0])
        bent = -(sine * self.wave**2)
        w, both = sine @ self.share @ value, cosine @ self.share @ slope
        first, second = bent @ self.share @ value, sine @ self.share @ curvature
        if self.turned:
            return np.stack((w.T, second.T, first.T, both.T))
        return np.stack((w, first, second, both))

    def mean(self, spot: Spot) -> float:
        along, across, wide, deep = spot if not self.turned else (spot[1], spot[0], spot[3], spot[2])
        sine = np.sin((along + 1) * self.length / 2 * self.wave) * np.sinc(self.wave * wide / 2 / np.pi)
        return float(sine @ self.share @ self.other.mean(across, deep))


def products(tables: tuple[Basis, Basis], share: Array) -> Array:
    """w, w,xx, w,yy and w,xy of products of functions along and across."""
    x, y = tables
    pairs = ((0, 0), (2, 0), (0, 2), (1, 1))
    return np.stack([x[i] @ share @ y[j].T for i, j in pairs])


class Refinement:
    """The difference of many functions and few, for every clip and patch of a shape."""

    def __init__(self, shape: Shape, ways: tuple[Axis, Axis], resting: Callable[[], Give]) -> None:
        self._shape, (self._x, self._y) = shape, ways
        self._resting = resting  # what the few functions give, where sides are held
        self._spots = (*shape.distinct_clips, *(spot for _, spot in shape.patches))

    @cached_property
    def _bumps(self) -> tuple[tuple[Bump, ...], ...]:
        """In many functions."""
        return _bumps(self._shape, self._spots, (self._x.bent_count, self._y.bent_count))

    @cached_property
    def _few(self) -> tuple[_Sum, ...]:
        """In few functions."""
        ways = self._x, self._y
        if not any(self._shape.held):
            return tuple(_few(self._shape, ways, self._spots))
        return tuple(_sums(ways, self._spots, self._resting()))

    @cached_property
    def compliance(self) -> Array:
        """Mean deflection missed over each patch (rows) for a force of 1 on each (columns)."""
        return np.array(
            [
                [sum(b.mean(spot) for b in many) - few.mean(spot) for many, few in self._pairs]
                for spot in self._spots
            ]
        )

    @property
    def _pairs(self) -> Iterator[tuple[tuple[Bump, ...], _Sum]]:
        return zip(self._bumps, self._few, strict=True)

    def sharp(self, forces: Array, x: Array, y: Array) -> Array:
        """w, w,xx, w,yy, w,xy in many functions, for the forces on clips and patches in their order."""
        total = np.zeros((4, np.size(x), np.size(y)))
        if not np.any(forces):
            return total
        for force, many in zip(forces, self._bumps, strict=True):
            for bump in many:
                total += force * bump.at(x, y)
        return total

    def blunt(self, forces: Array) -> Array:
        """The same in the few functions: their shares."""
        total = np.zeros((self._x.bent_count, self._y.bent_count))
        if not np.any(forces):
            return total
        for force, few in zip(forces, self._few, strict=True):
            total += force * few.share
        return total


@lru_cache(maxsize=64)
def _bumps(shape: Shape, spots: tuple[Spot, ...], few: tuple[int, int]) -> tuple[tuple[Bump, ...], ...]:
    """The linear plate under each patch, in parts that add up."""
    aspect, poisson, held = shape.aspect, shape.poisson, shape.held
    if held[0]:
        return tuple(_sines(aspect, (1.0, held[1]), spot, poisson, turned=False) for spot in spots)
    if held[1]:
        turned = ((y, x, deep, wide) for x, y, wide, deep in spots)
        return tuple(_sines(1.0, (aspect, held[0]), spot, poisson, turned=True) for spot in turned)
    parts = [_many(shape, parities, spots, few) for parities in _parities(shape.even)]
    return tuple(zip(*parts, strict=True))


def _parities(even: tuple[bool, bool]) -> Iterator[tuple[Parity, Parity]]:
    ways: list[tuple[Parity, ...]] = [("even",) if each else ("even", "odd") for each in even]
    return ((x, y) for x in ways[0] for y in ways[1])


def _many(
    shape: Shape, parities: tuple[Parity, Parity], spots: tuple[Spot, ...], few: tuple[int, int]
) -> list[_Sum]:
    """Many functions of one parity, more than the few in any case."""
    along = _fine(shape.aspect / 2, [(s[0], s[2]) for s in spots])
    across = _fine(0.5, [(s[1], s[3]) for s in spots])
    x = axis(shape.aspect, False, parities[0], max(along, few[0] + _MORE))
    return _few(shape, (x, axis(1.0, False, parities[1], max(across, few[1] + _MORE))), spots)


def _few(shape: Shape, ways: tuple[Axis, Axis], spots: tuple[Spot, ...]) -> list[_Sum]:
    """The linear plate that no side holds, bedded, under each patch, in the functions of two ways."""
    x, y = ways
    stiff = bending_matrix(x, y, shape.poisson) + _BEDDING * mass_matrix(x, y)
    return _sums(ways, spots, lambda rows: np.asarray(np.linalg.solve(stiff, rows)))


def _sums(ways: tuple[Axis, Axis], spots: tuple[Spot, ...], give: Give) -> list[_Sum]:
    """A linear plate under each patch."""
    x, y = ways
    if not spots:
        return []
    rows = np.array([spot_row(x, y, spot) for spot in spots]).T
    return [_Sum(x, y, share.reshape(x.bent_count, y.bent_count)) for share in give(rows).T]


def _fine(half: float, spots: list[tuple[float, float]]) -> int:
    """Functions of one parity that show patches of this size; at an edge polynomials lie closer."""
    needed = (
        4.5 * (half / size) ** 0.5 if abs(middle) + size / half > 0.95 else 2.5 * half / size
        for middle, size in spots
    )
    return int(np.clip(max(needed), *_FINE))


def _sines(
    length: float, other: tuple[float, bool], spot: Spot, poisson: float, *, turned: bool
) -> tuple[_Sines, ...]:
    """A sine series along the held way; `other` is the length of the other way and whether it is held."""
    count = int(np.clip(6 * length / max(spot[2], 1e-3), _LEAST_SINES, _MOST_SINES))
    every = 2 if spot[0] == 0 else 1  # a patch in the middle wakes no sine that is odd about it
    wave: Array = np.arange(1.0, count + 1, every) * (np.pi / length)
    push = np.sin(wave * (spot[0] + 1) * length / 2) * np.sinc(wave * spot[2] / 2 / np.pi)
    parities: tuple[Parity, ...] = ("even",) if spot[1] == 0 else ("even", "odd")
    found = []
    for parity in parities:
        way = axis(other[0], other[1], parity, _ALONG // 2)
        system = _strip_matrices(way, wave, poisson) * length / 2
        row = np.broadcast_to(way.mean(spot[1], spot[3])[:, None], (wave.size, way.bent_count, 1))
        share = np.linalg.solve(system, row)[:, :, 0] * push[:, None]
        found.append(_Sines(way, wave, length, share, turned))
    return tuple(found)


def _strip_matrices(way: Axis, wave: Array, poisson: float) -> Array:
    """Bending energy along the other way for each sine."""
    value, slope, curvature = way.bent
    weighed = (way.weight * value.T, way.weight * slope.T, way.weight * curvature.T)
    still, turn, bent = weighed[0] @ value, weighed[1] @ slope, weighed[2] @ curvature
    mixed = weighed[0] @ curvature
    k2 = (wave**2)[:, None, None]
    mix = 2 * (1 - poisson) * turn - poisson * (mixed + mixed.T)
    return np.asarray(k2**2 * still + k2 * mix + bent)
