"""Light that moved during the sweep: each reading brought to the mean of it.

Beside every voltage and current stands the irradiance of that moment. Over so small a step procedure 1 of
IEC 60891 (recalled) is exact enough. It moves each reading from its own light G1 to the mean light Gm:

    I2 = I1 + Isc1 (Gm / G1 - 1)        V2 = V1 - Rs (I2 - I1)

Isc1 is that at G1. Isc goes with the light, so it is G1 / Gm of the Isc at the mean, and the current gains

    Isc (1 - G1 / Gm)

The Isc of the mean light in the place of Isc1 would move a reading under a cloud of ten percent by eleven.
It works on readings of any sign and order, before they are cleaned. Readings stuck at the end of the meter's
range go first: each in its own light, they would no longer be seen to be alike.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from panewright.cell.root import Array
from panewright.curve.stuck import Mask, stuck_current
from panewright.errors import CurveError, Problem

STEADY_SHARE = 0.01  #: either way of the mean: what outdoor measurements may have (IEC 60904-1, recalled)
_NEAR_SHORT = 0.05  # of the greatest voltage: readings of Isc, whose middle is less unsure than one of them


@dataclass(frozen=True, slots=True)
class Steady:
    """Readings as if the light had stood still."""

    voltage_v: tuple[float, ...]
    current_a: tuple[float, ...]
    irradiance_w_m2: float  #: the mean
    drift_share: float  #: greatest way from the mean, as a share
    said: tuple[str, ...]
    stuck: tuple[tuple[float, float], ...] = ()  #: voltage and current as read; they are left out

    @property
    def was_steady(self) -> bool:
        """Whether the light stayed as a measurement wants it."""
        return self.drift_share <= STEADY_SHARE


def in_mean_light(
    voltage_v: Sequence[float] | Array,
    current_a: Sequence[float] | Array,
    light_w_m2: Sequence[float] | Array,
    series_ohm: float = 0.0,
) -> Steady:
    """Every reading in the mean light; `CurveError` where the light is not beside each of them."""
    v, i, g = (np.asarray(column, dtype=float) for column in (voltage_v, current_a, light_w_m2))
    _must_stand_beside(v, i, g)
    lit = np.isfinite(v) & np.isfinite(i)
    mean = float(g[lit].mean())
    share = g / mean
    stuck = _stuck(v, i, lit)
    sure = lit & ~stuck
    rise = _isc_a(v[sure], i[sure], share[sure]) * (1 - share)
    drift = float(np.abs(share[lit] - 1).max())
    turn = 1.0 if v[sure][np.argmax(np.abs(v[sure]))] * i[sure][np.argmin(np.abs(v[sure]))] > 0 else -1.0
    return Steady(
        tuple((v - turn * series_ohm * rise)[~stuck].tolist()),
        tuple((i + rise)[~stuck].tolist()),
        mean,
        drift,
        tuple(_said(drift, int(stuck.sum()))),
        tuple(zip(v[stuck].tolist(), i[stuck].tolist(), strict=True)),
    )


def _said(drift: float, stuck: int) -> Iterator[str]:
    if drift > 0:
        yield f"The light moved by {drift:.1%} of its mean; each reading was brought to it."
    if stuck:
        yield f"{stuck} points stuck at the end of the meter's range were left out."


def _stuck(v: Array, i: Array, lit: Mask) -> Mask:
    """Which readings the meter's range cut off; none where that would be all of them."""
    stuck = np.zeros(v.size, dtype=bool)
    stuck[lit] = stuck_current(v[lit], i[lit])
    return stuck if np.any(lit & ~stuck) else np.zeros(v.size, dtype=bool)


def _isc_a(v: Array, i: Array, share: Array) -> float:
    """The current near zero volts, in the mean light; of the readings' own sign. [A]"""
    size = np.abs(v)
    near = (size <= _NEAR_SHORT * size.max()) | (size == size.min())
    return float(np.median(i[near] / share[near]))


def _must_stand_beside(v: Array, i: Array, g: Array) -> None:
    if not v.size == i.size == g.size or not v.size:
        reason = f"{v.size} voltages, {i.size} currents and {g.size} irradiances do not stand side by side."
        raise CurveError(
            [Problem(reason, "Give one irradiance for each reading, or one for the whole sweep.")]
        )
    if not np.any(np.isfinite(v) & np.isfinite(i)):
        raise CurveError([Problem("No reading has a voltage and a current.", "Sweep again.")])
    if not np.all(np.isfinite(g) & (g > 0)):
        worst = float(g[~(np.isfinite(g) & (g > 0))][0])
        raise CurveError(
            [Problem(f"An irradiance is {worst:g} W/m2.", "Give what the sensor read, above zero.")]
        )
