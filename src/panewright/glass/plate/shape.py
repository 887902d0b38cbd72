"""What the scaled equations of a plate hang on, without sizes: sides, holding, where what presses.

Lengths in the short side b, loads as shares of the whole.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from panewright.glass.plate.axis import Axis, axis
from panewright.glass.plate.basis import Array

Spot = tuple[float, float, float, float]  #: middle along x and y as shares of half lengths, sizes in b


@dataclass(frozen=True, slots=True)
class Shape:
    """A plate, its holding and its load."""

    aspect: float
    poisson: float
    held: tuple[bool, bool]
    clips: tuple[Spot, ...]
    patches: tuple[tuple[float, Spot], ...]  #: share of the load, where
    pressure: float  #: share of the load that is even pressure, times b^2

    @property
    def even(self) -> tuple[bool, bool]:
        """Whether all is alike on both sides of each middle line; clips always are."""
        patches = [spot for _, spot in self.patches]
        return all(spot[0] == 0 for spot in patches), all(spot[1] == 0 for spot in patches)

    @property
    def bare(self) -> Shape:
        """The same without what it is pressed with: only where."""
        return replace(self, patches=tuple((1.0, spot) for _, spot in self.patches), pressure=1.0)

    def axes(self, counts: tuple[int, int]) -> tuple[Axis, Axis]:
        """Functions both ways."""
        x, y = ("even" if even else "both" for even in self.even)
        return axis(self.aspect, self.held[0], x, counts[0]), axis(1.0, self.held[1], y, counts[1])

    @property
    def distinct_clips(self) -> tuple[Spot, ...]:
        """Clips that are not mirror images of one another."""
        even_x, even_y = self.even
        kept = {
            (abs(x) if even_x else x, abs(y) if even_y else y, wide, deep) for x, y, wide, deep in self.clips
        }
        return tuple(sorted(kept))


def bending_matrix(x: Axis, y: Axis, poisson: float) -> Array:
    """Bending energy of each two deflection functions, D = 1."""

    def pair(i: int, j: int, m: int, n: int) -> Array:
        across = (x.bent[i].T * x.weight) @ x.bent[j]
        return np.asarray(np.kron(across, (y.bent[m].T * y.weight) @ y.bent[n]))

    mixed = pair(2, 0, 0, 2)
    twist = pair(1, 1, 1, 1)
    return pair(2, 2, 0, 0) + pair(0, 0, 2, 2) + poisson * (mixed + mixed.T) + 2 * (1 - poisson) * twist


def spot_row(x: Axis, y: Axis, spot: Spot) -> Array:
    """Mean of each deflection function over a patch: the push of a force of 1 spread over it."""
    return np.asarray(np.kron(x.mean(spot[0], spot[2]), y.mean(spot[1], spot[3])))


def mass_matrix(x: Axis, y: Axis) -> Array:
    """Product of each two deflection functions over the plate: an even bedding of stiffness 1."""

    def along(way: Axis) -> Array:
        return np.asarray((way.bent[0].T * way.weight) @ way.bent[0])

    return np.asarray(np.kron(along(x), along(y)))
