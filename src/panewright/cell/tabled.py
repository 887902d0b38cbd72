"""A cell's voltage at many currents, by a table of what its junction swallows.

The junction's law D(Vd) stands forward in closed form (see `curve`), so a table of it is made at once, and
read backward. Light moves a cell's current and nothing else of D: cells that differ in light, or in series
resistance, share one table. Between the points of the table Vd is straight: steps of a millivolt leave some
microvolts of error (a thirtieth of nVth, squared, over eight).
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

import numpy as np

from panewright.cell.curve import swallowed_a
from panewright.cell.diode import Diode
from panewright.cell.root import Array

_STEP_V = 1e-3
_NEAR_V = 0.3  # in reverse, as far as the exponential shows
_FAR_V = 1e3  # without breakdown a shunt may ask for that much
_POINTS = 300  # of the far reverse
_LEFT = 1e-4  # of 1 - Vd / Vbr: as near to the breakdown's end as the table goes


def tabled_v(cell: Diode, current_a: Array, most_a: float) -> Array:
    """Terminal voltage at currents, none above `most_a` in size. [V]

    A thousand below zero stands for a current that no voltage drives.
    """
    need = cell.light_a - current_a
    dark = replace(cell, light_a=0.0, series_ohm=0.0)
    swallowed, junction = _table(dark, _rounded(cell.light_a + most_a))
    vd = np.interp(need, swallowed, junction)
    return np.asarray(np.where(need < swallowed[0], -_FAR_V, vd) - current_a * cell.series_ohm)


def _rounded(amperes: float) -> float:
    """Up to a power of 2, so that tables are shared."""
    return float(2.0 ** np.ceil(np.log2(max(amperes, 1e-12))))


@lru_cache(maxsize=512)
def _table(dark: Diode, most_a: float) -> tuple[Array, Array]:
    """What the junction swallows, rising, and the junction's voltage."""
    top = dark.ideality_v * np.log1p(most_a / dark.saturation_a)
    near = np.arange(-_NEAR_V, top + _STEP_V, _STEP_V)
    if dark.breakdown_siemens > 0:
        far = dark.breakdown_v * (1 - np.geomspace(_LEFT, 1 + _NEAR_V / dark.breakdown_v, _POINTS))
    else:
        far = -np.geomspace(_FAR_V, _NEAR_V, _POINTS)
    junction = np.concatenate([far[far < -_NEAR_V], near])
    current, _ = swallowed_a(dark, junction)
    rising = np.concatenate([[True], np.diff(np.maximum.accumulate(current)) > 0])
    return np.asarray(current[rising]), junction[rising]
