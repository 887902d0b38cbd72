"""How hard a force on a small square pulls a plate on four sides, nearly: in its middle and beside its edge.

The largest stress on either face over the load, for a square in the middle and for one whose middle lies one
and a half of its sides from the long edge, with an even pressure beside it. Its logarithm is a sum of
Chebyshev's polynomials of four things: the ratio of the plate's sides, the square's side over the plate's
short one, the even pressure's share of the force, and the force, counted as in `leaf`. Within `OFF` of what
`field` reckons in full (see the tests): enough to tell which place is worse, and what surely holds.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import asinh, log, sinh
from pathlib import Path

import numpy as np

from panewright.beforehand import read_nearly
from panewright.glass.plate.almanac.leaf import node_places, polynomials
from panewright.glass.plate.basis import Array

OFF = 0.03  #: of a stress, at most, for Poisson's ratios of glass
FILE = Path(__file__).with_name("touches.npy")
COUNTS = 7, 6, 3, 9  #: polynomials of each of the four
POISSON = 0.23  #: of the plate it was reckoned for
WIDEST, SMALLEST, LARGEST = 5.0, 0.075, 1 / 3  #: ratio of the sides; side of the square over the short side
MOST_EVEN, MOST = 0.5, 450.0  #: even pressure times b^2 over the force; F b^2/(E t^4)
_BEND = 5.0  # F b^2/(E t^4) from which on a plate hangs in its skin rather than bends
_LIKE_GLASS = 0.015  # by so much may Poisson's ratio differ


@dataclass(frozen=True, slots=True)
class Touched:
    """A touch without sizes."""

    aspect: float
    square: float  #: its side over the plate's short one
    even: float  #: even pressure times b^2 over the force
    force: float  #: F b^2/(E t^4)

    @property
    def kept(self) -> bool:
        """Whether the almanac has it."""
        return (
            1 <= self.aspect <= WIDEST
            and SMALLEST <= self.square <= LARGEST
            and 0 <= self.even <= MOST_EVEN
            and 0 < self.force <= MOST
        )

    @property
    def places(self) -> tuple[float, float, float, float]:
        """Where it lies between the ends of each of the four, from -1 to 1."""
        shares = (
            log(self.aspect) / log(WIDEST),
            log(self.square / SMALLEST) / log(LARGEST / SMALLEST),
            self.even / MOST_EVEN,
            (asinh(self.force / _BEND) / asinh(MOST / _BEND)) ** 2,
        )
        first, second, third, fourth = (2 * share - 1 for share in shares)
        return first, second, third, fourth


def stresses(touched: Touched, poisson: float) -> tuple[float, float] | None:
    """Largest stress in E t^2/b^2: middle, beside the long edge; None where the almanac has none."""
    if not touched.kept or abs(poisson - POISSON) > _LIKE_GLASS:
        return None
    found = _figures()
    for place, count in zip(touched.places, COUNTS, strict=True):
        found = np.tensordot(polynomials(place, count), found, 1)
    middle, beside = (float(each) * touched.force for each in np.exp(found))
    return middle, beside


def nodes() -> tuple[list[float], list[float], list[float], list[float]]:
    """Of each of the four those at which stresses are to be known to find the polynomials."""
    aspect, square, even, force = ([(place + 1) / 2 for place in node_places(count)] for count in COUNTS)
    return (
        [WIDEST**share for share in aspect],
        [SMALLEST * (LARGEST / SMALLEST) ** share for share in square],
        [MOST_EVEN * share for share in even],
        [_BEND * sinh(asinh(MOST / _BEND) * share**0.5) for share in force],
    )


@cache
def _figures() -> Array:
    return read_nearly(FILE)
