"""States of a plate by the almanac: deflection and stress function in the functions of a level of its path.

Against the walked path: 1e-7 of a stress or less anywhere (see the tests). Past it, and for sides more
unlike, the path is walked.
"""

from __future__ import annotations

from math import isqrt

import numpy as np

from panewright.glass.plate.almanac.leaf import Leaf, grown
from panewright.glass.plate.basis import Array
from panewright.glass.plate.stretch import State

_UNIT = (12 * (1 - 0.22**2)) ** 1.5  # scaled load at Q = 1, for glass by E1300
FIRST, SECOND = 200.0 * _UNIT, 1200.0 * _UNIT  #: scaled loads at which a path's levels end


def _leaf(level: int, least: float, widest: float) -> Leaf:
    begins, ends = (0.0, FIRST) if level == 0 else (FIRST, SECOND)
    return Leaf(f"states-{level}-{least:g}-{widest:g}", least, widest, begins, ends)


LEAVES = (  #: for each level; a leaf ends where its level takes other functions
    tuple(_leaf(0, *ends) for ends in ((1.0, 1.25), (1.25, 2.1), (2.1, 3.0), (3.0, 6.0))),
    tuple(
        _leaf(1, *ends) for ends in ((1.0, 1.1), (1.1, 2.0), (2.0, 2.5), (2.5, 3.0), (3.0, 4.0), (4.0, 5.0))
    ),
)


def state(aspect: float, level: int, load: float) -> State | None:
    """A plate's state under a scaled load; None where the almanac has none."""
    if level >= len(LEAVES):
        return None
    leaf = next((each for each in LEAVES[level] if aspect <= each.widest), None)
    if leaf is None or not leaf.holds(aspect, load):
        return None
    found = leaf.at(aspect, load)
    w, f = found[: found.size // 2], found[found.size // 2 :]
    if aspect == 1:
        w, f = _alike_both_ways(w), _alike_both_ways(f)
    v = grown(load) if leaf.begins == 0 else 1.0
    return State(load, v * w, v**2 * f)


def _alike_both_ways(square: Array) -> Array:
    """A square is bent alike along and across, to the last digit."""
    size = isqrt(len(square))
    table = square.reshape(size, size)
    return np.asarray(((table + table.T) / 2).ravel())
