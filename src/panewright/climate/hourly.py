"""Cell temperature hour by hour, for a year's energy: one line through measured figures by mounting.

    T = Ta + G / (u0 + u1 v)

In the open: u0 25.0 W/m2K, u1 6.84 W s/m3K, D. Faiman, Prog. Photovolt. 16, 2008, p. 307. Close to a roof
or a wall, and on a closed back: the line through D. King, W. Boyson, J. Kratochvil, SAND2004-3535, table 1,
between calm and 10 m/s: G (exp(a + b v) + dT / 1000) with a -2.98, b -0.0471, dT 1 K and a -2.81, b -0.0455,
0 (seen as an open library has them; within 0.6 K at 1000 W/m2 and 1 to 6 m/s). Wind as weather files have it,
10 m up. The design's own temperatures are by heat balance (`climate/heat.py`); a year does not ask for 8760
of those.
"""

from __future__ import annotations

from typing import Literal

import numpy as np
from numpy.typing import NDArray

from panewright.climate.site import Mounting

Floats = NDArray[np.float64]
Behind = Literal["open", "close", "closed"]

SHEDS: dict[Behind, tuple[float, float]] = {  #: u0 [W/m2K], u1 [W s/m3K]
    "open": (25.0, 6.84),
    "close": (18.91, 1.123),
    "closed": (16.27, 0.954),
}
_CLOSED_MM = 20.0  # a gap under which no air to speak of passes; common practice, no source


def behind(mounting: Mounting, gap_mm: float | None = None) -> Behind:
    """What a panel so mounted has behind it; the gap is that of a roof or wall.

    >>> behind("pole"), behind("roof-parallel", 100), behind("roof-parallel", 5)
    ('open', 'close', 'closed')
    """
    if mounting in ("free-standing", "pole", "flat roof"):
        return "open"
    return "closed" if gap_mm is not None and gap_mm < _CLOSED_MM else "close"


def hourly_cell_c(sun_w_m2: Floats, air_c: Floats, wind_m_s: Floats, back: Behind = "open") -> Floats:
    """Cells at work, hour by hour. [degC]

    >>> hourly_cell_c(np.array([800.0]), np.array([20.0]), np.array([1.0])).round(2)
    array([45.13])
    """
    still, blown = SHEDS[back]
    return np.asarray(air_c + sun_w_m2 / (still + blown * wind_m_s))
