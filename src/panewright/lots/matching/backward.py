"""How large a substring each cell bears backwards: driven by all the others of it in the cold, in the dark.

The others drive a shaded cell to (n - 1) Voc and the diode's drop. A cell bears that if it is not broken down
there: neither by its own breakdown voltage, nor by passing as much as the panel gives in full sun, from where
on it blocks nothing. A limit of watts may be set beside: they go into a few spots of it (see `circuit/hot`).
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from panewright.cell.diodes import Diodes
from panewright.cell.root import Array
from panewright.lots.matching.asked import Reverse


def largest_borne(reverse: Reverse, cells: Diodes, longest: int) -> NDArray[np.int64]:
    """Cells of the largest substring that each cell bears, 0 for none up to `longest`."""
    borne = np.zeros(np.shape(cells.light_a), dtype=np.int64)
    for count in range(1, longest + 1):
        volt = reverse.driven_v(count)
        passed = reverse_a(cells, volt)
        bears = (passed < reverse.others_a) & (volt * passed <= reverse.most_w) & (volt <= -cells.breakdown_v)
        borne = np.where(bears & (borne == count - 1), count, borne)
    return borne


def reverse_a(cells: Diodes, volt: Array | float) -> Array:
    """What dark cells pass at a voltage put on backwards; without end from their breakdown on. [A]"""
    room = 1 + volt / cells.breakdown_v
    leak = cells.breakdown_siemens * volt * np.maximum(room, 1e-9) ** -cells.breakdown_exponent
    broken = (cells.breakdown_siemens > 0) & (room <= 0)
    return np.asarray(np.where(broken, np.inf, volt / cells.shunt_ohm + leak))
