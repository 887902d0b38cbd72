"""One leaf of the almanac: figures of a plate as polynomials in the ratio of its sides and in its load.

A plate's state changes smoothly with both, so it is a sum of Chebyshev's polynomials of ln(a/b) and of
v = arsinh(load/_BEND), each term a product of one of either: v runs with small loads and counts the powers of
great ones. A leaf that begins at no load has figures even in the load, as polynomials of v squared; what is
odd is kept over v. So small loads are as exact as great ones.

Figures are kept in whole steps, see `beforehand`: those are below what the walked path itself is sure of.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import acos, asinh, cos, log, pi, sinh
from pathlib import Path

import numpy as np

from panewright.beforehand import read_steps
from panewright.glass.plate.basis import Array

_BEND = 190.0  # scaled load from which on a plate hangs in its skin rather than bends
_DUST = 1e-9

FOLDER = Path(__file__).parent  #: where the leaves lie


@dataclass(frozen=True, slots=True, eq=False)
class Leaf:
    """Figures of plates between two ratios of their sides and between two scaled loads."""

    name: str
    least: float  #: ratio of the sides
    widest: float
    begins: float  #: scaled load
    ends: float

    def holds(self, aspect: float, load: float) -> bool:
        """Whether it has a plate under a load."""
        return self.least <= aspect <= self.widest and self.begins <= load <= self.ends * (1 + _DUST)

    def at(self, aspect: float, load: float) -> Array:
        """The figures of a plate under a load."""
        figures = _of(self, aspect)
        return np.asarray(polynomials(self._load_place(load), len(figures)) @ figures)

    def nodes(self, ratios: int, loads: int) -> tuple[list[float], list[float]]:
        """Ratios of the sides and loads at which figures are to be known to find the polynomials."""
        return [self._aspect_at(each) for each in node_places(ratios)], [
            self._load_at(each) for each in node_places(loads)
        ]

    def _load_place(self, load: float) -> float:
        """Where a load lies in the leaf, from -1 to 1."""
        first, last, here = grown(self.begins), grown(self.ends), grown(load)
        share = (here / last) ** 2 if self.begins == 0 else (here - first) / (last - first)
        return 2 * share - 1

    def _load_at(self, place: float) -> float:
        first, last, share = grown(self.begins), grown(self.ends), (place + 1) / 2
        here = last * share**0.5 if self.begins == 0 else first + share * (last - first)
        return _BEND * sinh(here)

    def aspect_place(self, aspect: float) -> float:
        """Where a ratio of the sides lies in the leaf, from -1 to 1."""
        return 2 * log(aspect / self.least) / log(self.widest / self.least) - 1

    def _aspect_at(self, place: float) -> float:
        return float(self.least * (self.widest / self.least) ** ((place + 1) / 2))


def grown(load: float) -> float:
    """v, the load as it is counted; what is odd in the load is kept over it."""
    return asinh(load / _BEND)


def polynomials(place: float, count: int) -> Array:
    """Chebyshev's polynomials at a place from -1 to 1."""
    return np.asarray(np.cos(np.arange(count) * acos(min(max(place, -1.0), 1.0))))


def node_places(count: int) -> list[float]:
    """Where figures are to be known to find so many polynomials."""
    return [cos((each + 0.5) * pi / count) for each in range(count)]


@lru_cache(maxsize=64)
def _of(leaf: Leaf, aspect: float) -> Array:
    """The figures of one ratio of the sides: a row for each polynomial of the load."""
    figures = _read(leaf.name)
    weights = polynomials(leaf.aspect_place(aspect), len(figures))
    return np.asarray((weights @ figures.reshape(len(figures), -1)).reshape(figures.shape[1:]))


@lru_cache(maxsize=32)
def _read(name: str) -> Array:
    """A leaf's figures: polynomials of the ratio, polynomials of the load, figures."""
    return read_steps(FOLDER / f"{name}.npz")
