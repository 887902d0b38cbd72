"""A curve of a few meter readings, filled between them for the rating, and how unsure that leaves its power.

Between two readings the panel's own circuit gives the shape: its curve, and on it what the readings differ
from it by, drawn straight from one to the next. How far the power may lie from that is not asked of the
circuit but of the readings alone (`curve.meter.bracket`): least and most are bounds, even between them, so
one standard uncertainty is half the width over the root of 3 (JCGM 100:2008, 4.3.7, recalled).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import sqrt

import numpy as np

from panewright.curve.measured import Measured
from panewright.curve.meter.bracket import PowerBounds
from panewright.curve.meter.meter_points import MeterPoint
from panewright.errors import BenchError, Problem

_FINE = 120
_LEAST = 3


@dataclass(frozen=True, slots=True)
class Between:
    """How many readings a curve has, and what the room between them leaves open of the power."""

    points: int
    power_share: float  #: one standard uncertainty


def filled(measured: Measured, like: Measured) -> Measured:
    """The readings with the circuit's shape between them; `like` is its curve in about their light and heat.

    `BenchError` where the readings do not reach from short to open circuit.
    """
    v, i = measured.volts, measured.amperes
    if v.size < _LEAST or v[0] > 0.1 * v[-1] or i[-1] > 0.1 * i[0]:
        reason = "The readings do not reach from short circuit to open circuit."
        cure = "Read Isc, Voc and one resistor at least, near the voltage of most power."
        raise BenchError([Problem(reason, cure, key="meter", value=f"{v.size} readings")])
    fine = np.union1d(v, np.linspace(v[0], v[-1], _FINE))
    stretched = like.volts * (v[-1] / _open_v(like))
    shape = np.interp(fine, stretched, like.amperes * (i[0] / like.amperes[0]))
    off = np.interp(fine, v, i - np.interp(v, stretched, like.amperes * (i[0] / like.amperes[0])))
    keep = np.concatenate(([True], np.diff(fine) > 1e-9 * v[-1]))
    return replace(
        measured,
        voltage_v=tuple(fine[keep].tolist()),
        current_a=tuple((shape + off)[keep].tolist()),
        repeats=(),
    )


def between(points: Sequence[MeterPoint], bounds: PowerBounds) -> Between:
    """What the readings alone leave open; `BenchError` where nothing bounds the power from above."""
    if bounds.high_w is None:
        reason = " ".join(bounds.said) or "Nothing bounds the power from above."
        cure = "Read again in steady light; if it stays so, sweep the panel: it has a step."
        raise BenchError([Problem(reason, cure, key="meter")])
    middle = (bounds.high_w + bounds.low_w) / 2
    return Between(len(points), (bounds.high_w - bounds.low_w) / 2 / sqrt(3) / middle)


def _open_v(like: Measured) -> float:
    """Where the circuit's own curve crosses no current. [V]"""
    return float(np.interp(0.0, -like.amperes, like.volts))
