"""A year stood for by some of its moments, each with the hours it stands for.

Moments are sorted by the light on the panels and parted so that each part has as much of it; the middle one
of a part, with its shadows as they are, stands for all of it.
"""

from __future__ import annotations

import numpy as np

from panewright.array.arranged import States
from panewright.array.moments import Moments
from panewright.array.steps import Lit
from panewright.cell.root import Array
from panewright.circuit.chords.panels import Panels, curve_of

MOMENTS, _POINTS = 48, 200


def states_of(panels: Panels, at: Moments, lit: Lit, count: int = MOMENTS) -> States:
    """So many states of a year, or all its moments where there are fewer."""
    light = lit.steps.light_w_m2.sum(axis=1)
    order = np.argsort(light, kind="stable")
    falls = (light * at.share)[order]
    part = np.minimum((np.cumsum(falls) / falls.sum() * count * (1 - 1e-12)).astype(int), count - 1)
    middles = np.array([np.flatnonzero(part == k)[np.count_nonzero(part == k) // 2] for k in np.unique(part)])
    hours = np.bincount(part, weights=falls)[np.unique(part)] / light[order][middles]
    steps = order[middles]
    current, volt = zip(*(_curves(panels, lit, int(t)) for t in steps), strict=True)
    return States(np.stack(current), np.stack(volt), hours)


def _curves(panels: Panels, lit: Lit, t: int) -> tuple[Array, Array]:
    """Currents, closer together near the greatest, and every panel's voltage at them; 0 V in the dark."""
    found = [_curve(panels, lit, t, p) for p in range(panels.number)]
    top = max((float(np.interp(0.0, volt, amp)) for volt, amp in found if volt.size), default=0.0)
    amps = 1.02 * top * np.sin(np.linspace(0.0, np.pi / 2, _POINTS))
    volts = [
        np.interp(amps, amp[::-1], volt[::-1]) if volt.size else np.zeros(_POINTS) for volt, amp in found
    ]
    return amps, np.array(volts)


def _curve(panels: Panels, lit: Lit, t: int, p: int) -> tuple[Array, Array]:
    steps = lit.steps
    row = int(steps.shade[t, p])
    light = float(steps.light_w_m2[t, p]) if row < 0 else steps.shaded[row].tolist()
    told = curve_of(panels, p, light, float(steps.cell_c[t, p]))
    return np.array(told.voltage_v), np.array(told.current_a)
