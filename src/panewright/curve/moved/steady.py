"""Light that moved during the sweep: each reading brought to the mean of it.

Beside every voltage and current stands the irradiance of that moment. Over so small a step procedure 1 is
exact enough: a reading at G gains Isc (1 - G / Gm) in current and loses Rs times that in voltage, where Isc
is that at the mean light Gm. It works on readings of any sign and order, before they are cleaned.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from panewright.cell.root import Array
from panewright.errors import CurveError, Problem

STEADY_SHARE = 0.01  #: either way of the mean: what outdoor measurements may have (IEC 60904-1, recalled)


@dataclass(frozen=True, slots=True)
class Steady:
    """Readings as if the light had stood still."""

    voltage_v: tuple[float, ...]
    current_a: tuple[float, ...]
    irradiance_w_m2: float  #: the mean
    drift_share: float  #: greatest way from the mean, as a share
    said: tuple[str, ...]

    @property
    def was_steady(self) -> bool:
        """Whether the light stayed as a measurement wants it."""
        return self.drift_share <= STEADY_SHARE


def in_mean_light(
    voltage_v: Sequence[float],
    current_a: Sequence[float],
    light_w_m2: Sequence[float],
    series_ohm: float = 0.0,
) -> Steady:
    """Every reading in the mean light; `CurveError` where the light is not beside each of them."""
    v, i, g = (np.asarray(column, dtype=float) for column in (voltage_v, current_a, light_w_m2))
    _must_stand_beside(v, i, g)
    lit = np.isfinite(v) & np.isfinite(i)
    mean = float(g[lit].mean())
    share = g / mean
    rise = _isc_a(v[lit], i[lit], share[lit]) * (1 - share)
    drift = float(np.abs(share[lit] - 1).max())
    turn = 1.0 if v[lit][np.argmax(np.abs(v[lit]))] * i[lit][np.argmin(np.abs(v[lit]))] > 0 else -1.0
    said = (
        ()
        if drift == 0
        else (f"The light moved by {drift:.1%} of its mean; each reading was brought to it.",)
    )
    return Steady(
        tuple((v - turn * series_ohm * rise).tolist()), tuple((i + rise).tolist()), mean, drift, said
    )


def _isc_a(v: Array, i: Array, share: Array) -> float:
    """The current nearest to zero volts, in the mean light; of the readings' own sign. [A]"""
    nearest = int(np.argmin(np.abs(v)))
    return float(i[nearest] / share[nearest])


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
