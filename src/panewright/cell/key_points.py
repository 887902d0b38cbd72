"""Short circuit, open circuit and maximum power: the points a cell or a panel is known by.

Along the curve the power V I is greatest where Vd = I (1/g + 2 Rs), with g the slope of what the junction
swallows: this is dP/dVd = 0 for P = (Vd - I Rs) I. The left side rises and the right side falls with Vd,
so there is exactly one such point between short and open circuit.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from panewright.cell.curve import current_a, swallowed_a, voltage_v
from panewright.cell.diode import Diode
from panewright.cell.root import Array, root


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


@lru_cache(maxsize=256)
def key_points(diode: Diode) -> KeyPoints:
    """The key points of one cell.

    Kept, for the search of a count, its table and the pages of readings ask for the same cells again.

    >>> points = key_points(Diode(8.5679853, 3.498345e-9, 0.02877568862, 0.00410914, 20.5457))
    >>> round(points.power_w, 8)
    4.07962821
    """
    if diode.light_a == 0:
        return KeyPoints(0.0, 0.0, 0.0, 0.0)
    isc, voc = current_a(diode, 0.0), voltage_v(diode, 0.0)
    vd = float(_best_junction_v(diode, isc, voc))
    imp = diode.light_a - float(swallowed_a(diode, vd)[0])
    return KeyPoints(isc, voc, imp, vd - imp * diode.series_ohm)


def _best_junction_v(diode: Diode, isc: float, voc: float) -> Array:
    """Junction voltage at maximum power. [V]"""
    n, rs = diode.ideality_v, diode.series_ohm

    def surplus(vd: Array) -> tuple[Array, Array]:
        swallowed, g = swallowed_a(diode, vd)
        bend = diode.saturation_a / n**2 * np.exp(vd / n)  # breakdown's own bend is nothing here
        current = diode.light_a - swallowed
        return vd - current * (1 / g + 2 * rs), 2 + 2 * rs * g + current * bend / g**2

    start = voc - n * np.log1p(voc / n)  # exact for a cell without resistances
    return root(surplus, np.asarray(isc * rs), np.asarray(voc), np.asarray(start))
