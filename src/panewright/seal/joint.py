"""What a bead of silicone must be: wide enough to hold, thick enough to move.

Suction on the pane reaches the bead as half the load of the short span (trapezium rule): the bite times the
design stress bears it. Heat moves the pane along the rail, the glue line shears, and the slanted silicone may
not become longer than its movement class allows. A gap filled between edge and rail is pressed and pulled.

    bite = q b / (2 sigma)          [C] (read in a calculation sheet), [T] annex 2 (read)
    glue line = d / sqrt((1 + m)^2 - 1)     geometry; [C] on thermal movement
    gap = dL / m + tolerance        [W] (read in a sealant guide)

True for four straight edges, one pane, a primed and clean bond; not for torsion or for water that stands.

[C] ASTM C1401. [T] ETAG 002 part 1. [W] ASTM C1193, C1472.
"""

from __future__ import annotations

import math

from panewright.units import GRAVITY_M_S2

LEAST_BITE_MM = 6.0  #: [C], [T] (recalled)
LEAST_GLUE_LINE_MM = 6.0  #: [C], [T] (recalled)
MOST_RATIO = 3.0  #: bite over glue line, lest the middle never cures or moves [C], [T] (recalled)


def suction_bite_mm(suction_pa: float, short_mm: float, design_pa: float) -> float:
    """Bite that holds a pane against suction. [mm]  [C], [T]

    >>> round(suction_bite_mm(4440, 1500, 138e3), 2)
    24.13
    """
    return 0.5 * suction_pa * short_mm / design_pa


def weight_bite_mm(mass_kg: float, round_mm: float, dead_load_pa: float) -> float:
    """Bite that carries a pane's weight in shear for ever, with no setting blocks. [mm]  [C]

    >>> round(weight_bite_mm(16, 5200, 6894.76), 2)
    4.38
    """
    return mass_kg * GRAVITY_M_S2 / (round_mm * 1e-3 * dead_load_pa) * 1e3


def shear_glue_line_mm(slip_mm: float, movement: float) -> float:
    """Glue line that shears by `slip_mm` with a slant strain no larger than its movement class. [mm]

    >>> round(shear_glue_line_mm(1.0, 0.25), 4)
    1.3333
    """
    return slip_mm / math.sqrt((1 + movement) ** 2 - 1)


def gap_mm(change_mm: float, movement: float, tolerance_mm: float) -> float:
    """Gap whose sealant bears a change of width, cutting and squareness allowed for. [mm]  [W]

    >>> round(gap_mm(2.097, 0.25, 1.0), 3)
    9.388
    """
    return change_mm / movement + tolerance_mm


def strain(expansion_per_k: float, from_c: float, to_c: float) -> float:
    """Free growth, minus where it shrinks. [-]"""
    return expansion_per_k * (to_c - from_c)
