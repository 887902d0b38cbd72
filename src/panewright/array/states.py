"""A year stood for by some of its moments, each with the hours it stands for.

Moments are parted by two figures of every panel, the light on it and that on its darkest cell: the part in
which they differ most is halved along the figure that differs most there, again and again, so that panels
which look elsewhere, and shadows, part moments as brightness does. Of each part the moment that is nearest to
its mean, with its shadows as they are, stands for all of it, with as many hours as give the part's light.
"""

from __future__ import annotations

import numpy as np

from panewright.array.arranged import States
from panewright.array.moments import Moments, Whole
from panewright.array.steps import Lit
from panewright.cell.root import Array
from panewright.circuit.chords.panels import Panels, curve_of

MOMENTS, _POINTS = 48, 200


def states_of(panels: Panels, at: Moments, lit: Lit, count: int = MOMENTS) -> States:
    """So many states of a year, or all its moments where there are fewer."""
    light = lit.steps.light_w_m2
    whole, told = light.sum(axis=1), np.concatenate([light, _darkest(lit)], axis=1)
    falls = at.share * whole
    parts = _parted(told, at.share, falls, np.flatnonzero(whole > 0), count)
    steps = np.array([_nearest(told[part], falls[part], part) for part in parts])
    hours = np.array([falls[part].sum() for part in parts]) / whole[steps]
    order = np.argsort(whole[steps], kind="stable")
    current, volt = zip(*(_curves(panels, lit, int(t)) for t in steps[order]), strict=True)
    return States(np.stack(current), np.stack(volt), hours[order])


def _darkest(lit: Lit) -> Array:
    """Light on the darkest cell of each panel; rows of cells end with noughts where a panel has fewer."""
    steps = lit.steps
    least = np.where(steps.shaded > 0, steps.shaded, np.inf).min(axis=1)
    apart = steps.shade >= 0
    return np.asarray(np.where(apart, least[np.where(apart, steps.shade, 0)], steps.light_w_m2))


def _parted(told: Array, share: Array, falls: Array, lit: Whole, count: int) -> list[Whole]:
    """Moments in so many parts, each halved by the light that falls where its figures differ most."""
    parts, worst = [lit], [_astray(told[lit], share[lit])]
    while len(parts) < count:
        n = max(range(len(parts)), key=lambda k: worst[k][0])
        if worst[n][0] <= 0:
            break
        part = parts[n][np.argsort(told[parts[n], worst[n][1]], kind="stable")]
        sums = np.cumsum(falls[part])
        cut = min(max(int(np.searchsorted(sums, sums[-1] / 2)), 1), part.size - 1)
        parts[n : n + 1] = [part[:cut], part[cut:]]
        worst[n : n + 1] = [_astray(told[half], share[half]) for half in (part[:cut], part[cut:])]
    return parts


def _astray(told: Array, share: Array) -> tuple[float, int]:
    """How far moments lie from their mean, all figures together; and the figure that differs most."""
    mean = share @ told / share.sum()
    squares = share @ (told - mean) ** 2
    return (float(squares.sum()) if share.size > 1 else 0.0), int(squares.argmax())


def _nearest(told: Array, falls: Array, part: Whole) -> int:
    """The moment of a part that is nearest to its mean."""
    mean = falls @ told / falls.sum()
    return int(part[((told - mean) ** 2).sum(axis=1).argmin()])


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
