"""How the legs of an angle bend across where a bolt holds one of them: what a rail's own axes cannot tell.

A rail in space keeps its right angle. In truth its legs are two plates joined along the heel, which does not
move but turns. For loads that go along the rail as cos(k s) each leg is a strip, cut into a few finite strips
whose shapes across are cubics; all waves together make a single force. Off them comes what the rail's twist
already tells, lever squared over G J k2. What is left is small, local and less than nothing: about a bolt the
legs also bend along themselves, so that the rail turns less there than its twist alone would have it. Under
the bead's even line the same reckoning leaves 0.001 mm for each N/mm, which is not counted.

[C] Y. Cheung, Finite Strip Method in Structural Analysis: plates in waves along, cubics across (recalled).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache

import numpy as np

from panewright.frame.metals.aluminium import POISSON
from panewright.structure.space.member import Array

_STRIPS = 3  # on each side of a line that is asked about
_WAVES = 40
_LONGEST = 0.03  # beyond it nothing changes, and digits are lost
_GAUSS = 4


@dataclass(frozen=True, slots=True)
class Legs:
    """Two legs at a right angle, from heel to tip on their middle planes, in N and mm."""

    loaded_mm: float  #: the leg asked about
    other_mm: float
    wall_mm: float
    young_mpa: float

    @property
    def plate_nmm(self) -> float:
        """Bending stiffness of the wall. [N mm]"""
        return self.young_mpa * self.wall_mm**3 / (12 * (1 - POISSON**2))

    @property
    def twist_nmm2(self) -> float:
        """G J of both strips. [N mm2]"""
        return 2 * (1 - POISSON) * self.plate_nmm * (self.loaded_mm + self.other_mm)


@lru_cache(maxsize=512)
def bolt_mm_n(legs: Legs, at_mm: float) -> float:
    """What a force across the leg moves its own place, beyond the rail's twist. [mm/N]"""
    point, weight = _gauss(_WAVES)
    angle = (point + 1) * np.pi / 4
    wave = np.maximum(np.tan(angle), _LONGEST) / legs.loaded_mm
    span = weight * np.pi / 4 / np.cos(angle) ** 2 / legs.loaded_mm
    return float(span @ _beyond_twist(legs, at_mm, wave) / np.pi)


def _beyond_twist(legs: Legs, at_mm: float, wave: Array) -> Array:
    """Movement of the line under a load of one that goes as cos(k s), less that of the rail's twist."""
    grid = np.concatenate([_even(0.0, at_mm), _even(at_mm, legs.loaded_mm)[1:]])
    matrices = _strips(grid, _even(0.0, legs.other_mm)) * legs.plate_nmm
    power = wave[:, None] ** np.array([0, 2, 4])
    load = np.zeros((matrices.shape[-1], 1))
    line = 2 * _STRIPS - 1
    load[line] = 1.0
    moved = np.linalg.solve(np.tensordot(power, matrices, 1), load)[:, line, 0]
    return np.asarray(moved - at_mm**2 / (legs.twist_nmm2 * wave**2))


@cache
def _gauss(points: int) -> tuple[Array, Array]:
    """Places and weights of Gauss and Legendre; finding them costs more than using them."""
    return np.polynomial.legendre.leggauss(points)


def _even(low: float, high: float) -> Array:
    return np.linspace(low, high, _STRIPS + 1)


def _strips(loaded: Array, other: Array) -> Array:
    """Stiffness of both legs for powers 0, 2, 4 of k, over the wall's: the heel's turn, then each line."""
    size = 2 * (len(loaded) + len(other)) - 3
    whole, first = np.zeros((3, size, size)), 1
    for leg in (loaded, other):
        for number, width in enumerate(np.diff(leg)):
            lines = [first + 2 * (number - 1) + step for step in range(4)]
            if number == 0:
                lines[:2] = [-1, 0]  # the heel does not move, and its turn is one for both legs
            kept = [step for step in range(4) if lines[step] >= 0]
            places = np.array([lines[step] for step in kept])
            whole[:, places[:, None], places] += _strip(float(width))[:, np.array(kept)[:, None], kept]
        first += 2 * (len(leg) - 1)
    return whole


def _strip(width: float) -> Array:
    """One strip: w''w'', twist and Poisson's part, and w w. [C]"""
    at, weight = _gauss(_GAUSS)
    x, w = (at + 1) / 2, weight / 2 * width
    value = np.stack(
        [1 - 3 * x**2 + 2 * x**3, width * (x - 2 * x**2 + x**3), 3 * x**2 - 2 * x**3, width * (x**3 - x**2)]
    )
    slope = np.stack(
        [(6 * x**2 - 6 * x) / width, 1 - 4 * x + 3 * x**2, (6 * x - 6 * x**2) / width, 3 * x**2 - 2 * x]
    )
    bow = np.stack(
        [(12 * x - 6) / width**2, (6 * x - 4) / width, (6 - 12 * x) / width**2, (6 * x - 2) / width]
    )
    mixed = -POISSON * ((value * w) @ bow.T + (bow * w) @ value.T) + 2 * (1 - POISSON) * (slope * w) @ slope.T
    return np.stack([(bow * w) @ bow.T, mixed, (value * w) @ value.T])
