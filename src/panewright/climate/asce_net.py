"""How much of the velocity pressure stays on the panel, by ASCE 7: net coefficients of three mountings.

Free-standing and tilted: monoslope free roof, clear flow [F]; both wind directions, both load cases, and of
each the fuller half of the panel, taken over the whole. These are also the numbers of the middle zone of
the cladding figure for free roofs. A panel as edge of a large free roof gets more: not covered here.

Roof-parallel: external GCp of gable roofs [R] for 10 ft2, the zone along edges and ridge but not the
corners, times gamma_E gamma_a = 1.5 x 0.8 = 1.2 of 29.4.4 [A16]: one panel is all edge, and its small area
earns little equalisation. No relief is taken for the gap in editions without 29.4.4 either.

Wall: external GCp of walls [W], the zone at the building's edges, no relief for the gap behind.

[F] ASCE 7-10 figure 27.4-4, equal to ASCE 7-16 figure 27.3-4 (recalled).
[R] ASCE 7-16 figures 30.3-2A to D at 10 ft2, zones 2 (recalled; the larger where memory wavers).
[W] ASCE 7-16 figure 30.3-1 at 10 ft2, zones 4 and 5 (recalled).
[A16] ASCE 7-16 29.4.4 (that gamma_E is 1.5 or 1 and the product runs from 0.4 to 1.2 was read), 30.2.2.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.check import Check
from panewright.climate.site import Edition, Mounting

_TILT = (0.0, 7.5, 15.0, 22.5, 30.0, 37.5, 45.0)
# C_NW, C_NL of the windward and the leeward half; plus presses on the face, minus lifts it.
_FREE_ROOF = (
    ((1.2, 0.3), (-0.6, -1.0), (-0.9, -1.3), (-1.5, -1.6), (-1.8, -1.8), (-1.8, -1.8), (-1.6, -1.8)),
    ((-1.1, -0.1), (-1.4, 0.0), (-1.9, 0.0), (-2.4, -0.3), (-2.5, -0.5), (-2.4, -0.6), (-2.3, -0.7)),
    ((1.2, 0.3), (0.9, 1.5), (1.3, 1.6), (1.7, 1.8), (2.1, 2.1), (2.1, 2.2), (2.2, 2.5)),
    ((-1.1, -0.1), (1.6, 0.3), (1.8, 0.6), (2.2, 0.7), (2.6, 1.0), (2.7, 1.1), (2.6, 1.4)),
)
# Up to this tilt: lift (minus) and press (plus), GCp.
_GABLE = ((7.0, -2.3, 0.3), (20.0, -3.0, 0.7), (27.0, -2.5, 0.7), (45.0, -2.0, 0.9))
_WALL = (-1.4, 1.0)
_ONE_PANEL = 1.5 * 0.8  # gamma_E of an exposed edge, gamma_a of a small area
_LOW_RISE_M = 18.288  # 60 ft: the cladding figures end
_UPRIGHT_DEG = 15.0  # a wall panel leans no more than this


@dataclass(frozen=True, slots=True)
class Net:
    """Net coefficients, gust included, both as positive numbers, and the range they hold in."""

    down: float
    up: float
    words: str
    checks: tuple[Check, ...]


def free_roof_coefficients(tilt_deg: float) -> tuple[float, float]:
    """Largest C_N that presses and largest that lifts, over directions, cases and halves. [-]  [F]

    Straight between the table's tilts; below 7.5 degrees no less than the figure's own note gives, which
    is the row of 0 degrees.

    >>> free_roof_coefficients(30)
    (2.6, 2.5)
    """
    columns = np.array(_FREE_ROOF).transpose(0, 2, 1).reshape(-1, len(_TILT))
    values = [float(np.interp(tilt_deg, _TILT, column)) for column in columns]
    if tilt_deg < _TILT[1]:
        values += [float(column[0]) for column in columns]
    return max(values), -min(values)


def least_pressure_pa(edition: Edition) -> float:
    """No piece of cladding is designed for less, either way: 16 psf, 10 psf in 2005. [Pa]  30.2.2."""
    return (10 if edition == "ASCE 7-05" else 16) * 47.88026


def net_coefficients(mounting: Mounting, tilt_deg: float, height_m: float, gust: float) -> Net:
    """Net coefficients of a mounting with the gust factor in them."""
    if mounting == "free-standing":
        down, up = free_roof_coefficients(tilt_deg)
        words = "C_N of a monoslope free roof, clear flow, worst of directions, cases and halves, times G"
        return Net(down * gust, up * gust, words, (_tilt_check(tilt_deg, 45.0, "ASCE 7-16 figure 27.3-4"),))
    low = Check(
        "height under the cladding figures",
        height_m,
        _LOW_RISE_M,
        "m",
        "ASCE 7-16 figures 30.3-1 and 30.3-2",
        "Let an engineer find the wind on a building this high.",
        "climate",
    )
    if mounting == "wall":
        lift, press = _WALL
        return Net(press, -lift, "GCp of a wall's edge zone, gap not counted", (low, _lean_check(tilt_deg)))
    _, lift, press = next((row for row in _GABLE if tilt_deg <= row[0]), _GABLE[-1])
    words = "GCp of a gable roof's edge zone (not its corners) times 1.5 x 0.8 for one panel over a gap"
    steep = _tilt_check(tilt_deg, 45.0, "ASCE 7-16 figure 30.3-2")
    return Net(press * _ONE_PANEL, -lift * _ONE_PANEL, words, (low, steep))


def _tilt_check(tilt_deg: float, limit_deg: float, source: str) -> Check:
    cure = f"Tilt the panel {limit_deg:g} degrees or less, or let an engineer find the wind on it."
    return Check("tilt within the wind table", tilt_deg, limit_deg, "deg", source, cure, "climate")


def _lean_check(tilt_deg: float) -> Check:
    cure = "Ask for free-standing where the panel leans away from the wall."
    source = "walls are within 15 degrees of upright (common practice)"
    return Check("lean of a wall panel", abs(90 - tilt_deg), _UPRIGHT_DEG, "deg", source, cure, "climate")
