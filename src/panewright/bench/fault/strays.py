"""Readings that do not count: those past either axis, and strays that nothing supposed explains.

Foretold curves end a little past both axes, and what a panel does beyond is not supposed. A stray is a
reading far off every supposition that fits the others about as well as any: a spike, a slipped digit, a
contact lost for a moment. Left in, its square would be shared out among the suppositions, and the one that
bends a little towards it would win. It is left out for all of them alike, the farthest first, and no more
than a tenth of the readings (common practice, no source): what is off in more places is the panel. A top cut
off at the end of a meter's range is left out before, where the curve is cleaned.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panewright.bench.fault.evidence import Prepared, Weighed, weigh
from panewright.bench.fault.foretold import Foretold
from panewright.bench.fault.likelihood import distances
from panewright.bench.fault.readings import Points
from panewright.cell.root import Array

BEYOND = 0.01  #: of Voc and Isc: foretold curves end a little past either axis, and so do the readings taken
_FAR = 4.0  # standard deviations, and times the middle scatter: one sound reading in 16,000 lies there
_AS_WELL = 2.0  # times the least middle scatter: suppositions that fit most readings about as well as any
_PART = 10  # one in so many may be a stray
_FEW = 6  # of fewer readings none can be told from what the others say
_TOGETHER = 0.5  # of the farthest one's distance: what goes with it


@dataclass(frozen=True, slots=True)
class Sifted:
    """The readings that counted, and every supposition weighed by them."""

    points: Points
    weighed: tuple[Weighed, ...]
    strays: int  #: how many were left out as such
    scatter: float  #: middle distance of readings from what fits them best, in their own errors; 1 at least


def sifted(by: Prepared, points: Points) -> Sifted:
    """Weighed again and again, without strays, until none is left."""
    at = lit = between_axes(by.foretold, points)
    left = lit.voltage_v.size // _PART or 1
    told = weigh(by, at)
    off, scatter = _off(by.foretold, told, at)
    while left and at.voltage_v.size >= _FEW:
        odd = _strays(_nearest(off, scatter), left)
        if not odd.any():
            break
        at, left = at.only(~odd), left - int(odd.sum())
        told = weigh(by, at)
        off, scatter = _off(by.foretold, told, at)
    return Sifted(at, told, lit.voltage_v.size - at.voltage_v.size, float(scatter.min()))


def between_axes(foretold: Foretold, points: Points) -> Points:
    """The readings between the axes, or so little past them that curves are foretold there."""
    lit = (points.voltage_v > -BEYOND * foretold.voc_v) & (points.current_a > -BEYOND * foretold.isc_a)
    if not lit.any():
        raise ValueError("no reading lies between the axes, where a panel gives power")
    return points.only(lit)


def _off(foretold: Foretold, told: Sequence[Weighed], points: Points) -> tuple[Array, Array]:
    """Of every supposition at its likeliest, how far the readings lie off it."""
    return distances(foretold.curves([each.best for each in told]), points)


def _strays(off: Array, most: int) -> NDArray[np.bool_]:
    """The farthest of the readings that are far off all that fits the others, so many at most."""
    order = np.argsort(-off)[:most]
    odd = np.zeros(off.size, dtype=bool)
    odd[order] = off[order] > max(_FAR, _TOGETHER * off.max())
    return odd


def _nearest(off: Array, scatter: Array) -> Array:
    """How far every reading lies, at the nearest, from the suppositions that fit most of them."""
    fits = scatter <= _AS_WELL * scatter.min()
    return np.asarray((off[fits] / scatter[fits, None]).min(axis=0))
