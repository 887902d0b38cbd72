"""What the edges of a plate push back with by the almanac: each function's share of the push along a side.

As `reaction` finds them, over the load: those of a plate whose Poisson's ratio is nothing, and what one more
of it changes. Against what is found from the walked path: 1e-7 of the push or less anywhere (see the tests).
"""

from __future__ import annotations

import numpy as np

from panewright.glass.plate.almanac.leaf import Leaf
from panewright.glass.plate.almanac.states import SECOND
from panewright.glass.plate.basis import Array

LEAVES = tuple(  #: a leaf ends where the path takes other functions
    Leaf(f"edges-{least:g}-{widest:g}", least, widest, 0.0, SECOND)
    for least, widest in ((1.0, 1.25), (1.25, 2.25), (2.25, 4.0), (4.0, 5.0))
)


def shares(aspect: float, load: float) -> Array | None:
    """Shares along the long side, their change, then those along the short side; None where it has none."""
    leaf = next((each for each in LEAVES if aspect <= each.widest), None)
    if leaf is None or not leaf.holds(aspect, load):
        return None
    found = leaf.at(aspect, load)
    if aspect == 1:  # a square's sides push alike, to the last digit
        found = np.tile((found[: len(found) // 2] + found[len(found) // 2 :]) / 2, 2)
    return found
