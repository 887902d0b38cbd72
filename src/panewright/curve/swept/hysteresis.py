"""How a sweep up and a sweep down differ, and what the difference says.

A cell holds charge. Swept fast, part of the current goes into that charge or comes out of it: I = C dV/dt
is missing on the way up and is added on the way down. It shows where the voltage of the junction is high,
and hardly near short circuit. Light that moved between the two shows near short circuit as well. Half the
difference lies on either side of the slow curve, so that the middle of both is the slow curve where both
were equally fast.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.cell.root import Array
from panewright.curve.swept.runs import Run

_FLAT = 0.4  # of the voltage of most power: below it no charge to speak of
_KNEE = (0.85, 1.02)  # of the voltage of most power: where charge shows
_STEPS = 400
_LIGHT_SHARE = 0.5  # of the difference at the knee: as much near short circuit, and it is the light


@dataclass(frozen=True, slots=True)
class Hysteresis:
    """Down less up, in shares of the mean of both."""

    power_share: float  #: of the greatest power
    short_share: float  #: of the current near short circuit
    knee_share: float  #: of the current at the knee
    capacitance_f: float | None  #: of the whole string at the knee; None where the times are not known

    @property
    def of_light(self) -> bool:
        """Whether the light that moved explains it, and not the cells' own charge."""
        return abs(self.short_share) > _LIGHT_SHARE * abs(self.knee_share)

    def __str__(self) -> str:
        size = "" if self.capacitance_f is None else f", as by {self.capacitance_f * 1e6:.3g} uF"
        parts = (
            f"{self.short_share:+.2%} of the current near short circuit, {self.knee_share:+.2%} at the knee"
        )
        return f"the way down differs by {self.power_share:+.2%} of the power of the way up ({parts}{size})"


def hysteresis(up: Run, down: Run) -> Hysteresis | None:
    """The difference of two runs over the voltages that both have; None where these are too few.

    >>> volts = np.linspace(0, 20, 60)
    >>> one = np.clip(4 * (1 - np.exp((volts - 20) / 1.5)), 0, None)
    >>> from panewright.curve.swept.raw import RawSweep
    >>> up, down = RawSweep(volts, one), RawSweep(volts[::-1], 1.01 * one[::-1])
    >>> found = hysteresis(Run(up, True), Run(down, False))
    >>> round(found.power_share, 3), found.of_light
    (0.01, True)
    """
    (v_up, i_up), (v_down, i_down) = _sorted(up), _sorted(down)
    low, high = max(v_up[0], v_down[0]), min(v_up[-1], v_down[-1])
    if v_up.size < 4 or v_down.size < 4 or high <= low:
        return None
    at = np.linspace(low, high, _STEPS)
    rise, fall = np.interp(at, v_up, i_up), np.interp(at, v_down, i_down)
    top = at[int(np.argmax(at * (rise + fall)))]
    powers = float((at * rise).max()), float((at * fall).max())
    if top <= 0 or min(powers) <= 0:
        return None
    knee = (at >= _KNEE[0] * top) & (at <= _KNEE[1] * top)
    short = at <= _FLAT * top
    return Hysteresis(
        _share(*powers),
        _share(float(rise[short].mean()), float(fall[short].mean())) if np.any(short) else 0.0,
        _share(float(rise[knee].mean()), float(fall[knee].mean())),
        _capacitance_f(up, down, float((fall - rise)[knee].mean()), (_KNEE[0] * top, _KNEE[1] * top)),
    )


def _share(one: float, other: float) -> float:
    return 2 * (other - one) / (other + one) if other + one else 0.0


def _sorted(run: Run) -> tuple[Array, Array]:
    """A run by rising voltage, readings of one voltage as their mean."""
    v, place = np.unique(run.points.voltage_v, return_inverse=True)
    return v, np.bincount(place, weights=run.points.current_a) / np.bincount(place)


def _capacitance_f(up: Run, down: Run, apart_a: float, knee_v: tuple[float, float]) -> float | None:
    """What the difference at the knee says, by how fast the voltage went there. [F]"""
    speeds = [_speed(run, knee_v) for run in (up, down)]
    if speeds[0] is None or speeds[1] is None or speeds[0] - speeds[1] <= 0:
        return None
    return apart_a / (speeds[0] - speeds[1])


def _speed(run: Run, knee_v: tuple[float, float]) -> float | None:
    """Volts a second at the knee, negative on the way down; None where no time is known."""
    if run.points.time_s is None:
        return None
    v, t = run.points.voltage_v, run.points.time_s
    there = (v >= knee_v[0]) & (v <= knee_v[1])
    if np.sum(there) < 2 or np.ptp(t[there]) == 0:
        return None
    return float(np.polyfit(t[there] - t[there][0], v[there], 1)[0])


def middle(up: Run, down: Run) -> tuple[Array, Array]:
    """Voltages and currents half way between two runs, at the voltages of the run with more points."""
    (v_up, i_up), (v_down, i_down) = _sorted(up), _sorted(down)
    v = v_up if v_up.size >= v_down.size else v_down
    inside = v[(v >= max(v_up[0], v_down[0])) & (v <= min(v_up[-1], v_down[-1]))]
    return inside, (np.interp(inside, v_up, i_up) + np.interp(inside, v_down, i_down)) / 2
