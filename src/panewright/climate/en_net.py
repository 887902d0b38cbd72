"""How much of the peak pressure stays on the panel, by EN 1991-1-4: net coefficients of three mountings.

Free-standing and tilted: monopitch canopy [C], zone A over the whole pane, blockage 0 or 1, whichever is
worse. Zone A lies well above the overall force coefficient; the edge strips B and C, a tenth of the panel
wide and higher still, lie by the rails of a pane held all round and are not taken. Past 30 degrees the table
ends: the larger of its last row and of a signboard [S] is taken, a judgement between two rules, not a rule.

Roof-parallel: local external coefficients cpe,1 of duopitch roofs [D], worst wind direction, the edge band
but not the corners, no relief for the gap. Wall: local cpe,1 of the edge zone [W], no relief for the gap.

[C] EN 1991-1-4:2005+A1 table 7.6, c_p,net zone A (recalled).
[S] EN 1991-1-4 7.4.3, c_f 1.80 (recalled).
[D] EN 1991-1-4 tables 7.2, 7.4a and 7.4b, zone G (recalled).
[W] EN 1991-1-4 table 7.1, zones A and D, cpe,1 (recalled).
"""

from __future__ import annotations

import numpy as np

from panewright.check import Check
from panewright.climate.asce_net import Net
from panewright.climate.site import Mounting

_TILT = (0.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0)
_PRESS = (0.5, 0.8, 1.2, 1.4, 1.7, 2.0, 2.2)
_LIFT_EMPTY = (-0.6, -1.1, -1.5, -1.8, -2.2, -2.6, -3.0)  # nothing under the panel
_LIFT_BLOCKED = (-1.5, -1.6, -1.6, -1.6, -1.6, -1.5, -1.5)  # blocked to the downwind edge
_BOARD = 1.8
_ROOF_LIFT = -2.0
_ROOF_TILT = (0.0, 15.0, 30.0, 60.0, 75.0)
_ROOF_PRESS = (0.2, 0.2, 0.7, 0.7, 0.8)
_WALL = (-1.4, 1.0)


def canopy_coefficients(tilt_deg: float) -> tuple[float, float]:
    """Largest net coefficient that presses and largest that lifts. [-]  [C], past 30 degrees [S].

    >>> canopy_coefficients(20)
    (1.7, 2.2)
    """
    press = float(np.interp(tilt_deg, _TILT, _PRESS))
    lift = max(
        -float(np.interp(tilt_deg, _TILT, _LIFT_EMPTY)), -float(np.interp(tilt_deg, _TILT, _LIFT_BLOCKED))
    )
    if tilt_deg > 30:
        return max(press, _BOARD), max(lift, _BOARD)
    return press, lift


def net_coefficients(mounting: Mounting, tilt_deg: float) -> Net:
    """Net coefficients of a mounting, and the tilts they hold for."""
    if mounting == "free-standing":
        down, up = canopy_coefficients(tilt_deg)
        if tilt_deg <= 30:
            words = "c_p,net of a monopitch canopy, zone A, worse blockage"
        else:
            words = "larger of a canopy's c_p,net at 30 degrees and a signboard's c_f (a judgement)"
        source = "EN 1991-1-4 table 7.6 to 30 degrees; beyond, the larger of it and 7.4.3"
        return Net(down, up, words, (_tilt_check(tilt_deg, 90.0, source),))
    if mounting == "wall":
        lift, press = _WALL
        lean = Check(
            "lean of a wall panel",
            abs(90 - tilt_deg),
            15.0,
            "deg",
            "EN 13830 scope: walls are within 15 degrees of upright",
            "Ask for free-standing where the panel leans away from the wall.",
            "climate",
        )
        return Net(press, -lift, "c_pe,1 of a wall's edge zone, gap not counted", (lean,))
    press = float(np.interp(tilt_deg, _ROOF_TILT, _ROOF_PRESS))
    words = "c_pe,1 of a duopitch roof's edge band (not its corners), gap not counted"
    return Net(press, -_ROOF_LIFT, words, (_tilt_check(tilt_deg, 75.0, "EN 1991-1-4 table 7.4"),))


def _tilt_check(tilt_deg: float, limit_deg: float, source: str) -> Check:
    cure = f"Tilt the panel {limit_deg:g} degrees or less, or let an engineer find the wind on it."
    return Check("tilt within the wind table", tilt_deg, limit_deg, "deg", source, cure, "climate")
