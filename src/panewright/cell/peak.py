"""The point of maximum power of many cells at once.

Along the junction voltage Vd power rises as long as Vd > I (1/g + 2 Rs), g being the slope of what the
junction swallows; the one root of the difference is found between 0 and Voc.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.cell.curve import swallowed_a, voltage_v
from panewright.cell.diodes import Diodes
from panewright.cell.root import Array, root


@dataclass(frozen=True, slots=True)
class Peak:
    """Maximum power of every cell."""

    imp_a: Array
    vmp_v: Array

    @property
    def power_w(self) -> Array:
        """Pmp. [W]"""
        return self.imp_a * self.vmp_v


def peak(cells: Diodes) -> Peak:
    """The point of maximum power. [A, V]"""
    open_v = np.maximum(voltage_v(cells, np.zeros(cells.light_a.shape)), 0.0)
    n, rs = cells.ideality_v, cells.series_ohm

    def surplus(vd: Array) -> tuple[Array, Array]:
        swallowed, g = swallowed_a(cells, vd)
        bend = cells.saturation_a / n**2 * np.exp(vd / n)
        current = cells.light_a - swallowed
        return vd - current * (1 / g + 2 * rs), 2 + 2 * rs * g + current * bend / g**2

    vd = root(surplus, np.zeros_like(open_v), open_v, np.asarray(open_v - n * np.log1p(open_v / n)))
    current = cells.light_a - swallowed_a(cells, vd)[0]
    return Peak(current, vd - current * rs)
