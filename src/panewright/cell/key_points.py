"""Short circuit, open circuit and maximum power: the points a cell or a panel is known by.

Along the curve the power V I is greatest where Vd = I (1/g + 2 Rs), with g the slope of what the junction
swallows: this is dP/dVd = 0 for P = (Vd - I Rs) I. The left side rises and the right side falls with Vd,
so there is exactly one such point between short and open circuit.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from panewright.cell.alone import best_alone, forward_alone, swallowed_alone
from panewright.cell.diode import Diode


@dataclass(frozen=True, slots=True)
class KeyPoints:
    """Isc, Voc and the point of maximum power."""

    isc_a: float
    voc_v: float
    imp_a: float
    vmp_v: float

    @property
    def power_w(self) -> float:
        """Maximum power Pmp. [W]"""
        return self.imp_a * self.vmp_v

    @property
    def fill_factor(self) -> float:
        """Pmp over Isc Voc, 0 in the dark. [-]"""
        square = self.isc_a * self.voc_v
        return self.power_w / square if square > 0 else 0.0


@lru_cache(maxsize=1024)
def key_points(diode: Diode) -> KeyPoints:
    """The key points of one cell.

    Kept, for the search of a count, its table and the pages of readings ask for the same cells again.

    >>> points = key_points(Diode(8.5679853, 3.498345e-9, 0.02877568862, 0.00410914, 20.5457))
    >>> round(points.power_w, 8)
    4.07962821
    """
    if diode.light_a == 0:
        return KeyPoints(0.0, 0.0, 0.0, 0.0)
    rs, voc = diode.series_ohm, forward_alone(diode, 0.0, 1.0, diode.light_a)
    short = forward_alone(diode, 1.0, rs, rs * diode.light_a) if rs else 0.0
    isc = diode.light_a - swallowed_alone(diode, short)[0]
    vd = best_alone(diode, isc, voc)
    imp = diode.light_a - swallowed_alone(diode, vd)[0]
    return KeyPoints(isc, voc, imp, vd - imp * rs)
