"""When an hour of the file is: proved by the light itself, not by what the format says.

Light on level ground is what comes straight, leaning as the sun stands, and what the sky gives:

    level = direct cos z + diffuse

The sun is put before, at and after the stamp by half an hour. Only where it is put right do the three columns
close; half an hour off they miss by some 20 W/m2. Where none closes, whole hours are tried: a head with the
wrong time zone shows so, and the file is refused.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.intake.grid import refuse
from panewright.intake.weather.calendar import moments
from panewright.intake.weather.rows import Rows
from panewright.sky.course import course_over

STEPS_MIN = (-30.0, 0.0, 30.0)
_FINE_MIN = (-20.0, -10.0, 10.0, 20.0)  #: beside the best, where light is a moment's and no head says which
_OPEN_W_M2 = 30.0  #: a file that closes no better is looked at for a wrong time zone
_POOR_W_M2 = 50.0
_LEAST_ROWS = 100  #: with light from the sun, to prove anything
_MOST_ROWS = 1500  #: that each step is tried on
_LEAST_W_M2 = 20.0


@dataclass(frozen=True, slots=True)
class Closure:
    """Which minute after its stamp is the middle of an hour, and how well the light closes there."""

    after_min: float
    rms_w_m2: tuple[tuple[float, float], ...]  #: by step after the stamp; empty where nothing could be proved

    def told(self, usual_min: float) -> str:
        """In words, for a person."""
        if not self.rms_w_m2:
            return (
                f"Where an hour's middle lies is taken as the format says, {_words(usual_min)}: "
                "its three kinds of light do not stand side by side, so nothing proves it."
            )
        misses = ", ".join(f"{rms:.1f} W/m2 {_words(step)}" for step, rms in self.rms_w_m2)
        against = "" if self.after_min == usual_min else f", not {_words(usual_min)} as the format says"
        where = f"{_words(self.after_min)}{against}"
        best = min(rms for _, rms in self.rms_w_m2)
        poor = (
            "" if best <= _POOR_W_M2 else " That is poor: its direct light may be made up, or columns mixed."
        )
        return f"An hour's middle lies {where}: light closes best there ({misses} rms).{poor}"


def closure(rows: Rows) -> Closure:
    """The step at which the light closes best; `SheetError` where only another time zone would do."""
    lit = _lit(rows)
    base = _base_min(rows)
    if len(lit) < _LEAST_ROWS:
        return Closure(rows.usual_min, ())
    tried = tuple((base + step, _rms(rows, lit, base + step)) for step in STEPS_MIN)
    best, rms = min(tried, key=lambda each: each[1])
    if rows.kind == "PVGIS" and rows.usual_min == 0:
        tried = tuple(sorted((*tried, *((best + step, _rms(rows, lit, best + step)) for step in _FINE_MIN))))
        best, rms = min(tried, key=lambda each: each[1])
    if rms > _OPEN_W_M2:
        _refuse_wrong_zone(rows, lit, best, rms)
    return Closure(best, tried)


def _base_min(rows: Rows) -> float:
    """The stamp itself, or the moment that the file's head puts beside it."""
    return 0.0 if rows.usual_min in STEPS_MIN else rows.usual_min


def _lit(rows: Rows) -> np.ndarray[tuple[int], np.dtype[np.int64]]:
    """Rows with all three kinds of light, evenly over the file."""
    level, direct, diffuse = (rows.figures[key] for key in ("level", "direct", "diffuse"))
    told = np.isfinite(level) & np.isfinite(direct) & np.isfinite(diffuse) & (level > 0)
    lit = np.flatnonzero(told & (direct > _LEAST_W_M2))
    return np.asarray(lit[:: max(1, len(lit) // _MOST_ROWS)])


def _rms(rows: Rows, lit: np.ndarray[tuple[int], np.dtype[np.int64]], after_min: float) -> float:
    when = moments(rows, after_min)[lit]
    level, direct, diffuse = (rows.figures[key][lit] for key in ("level", "direct", "diffuse"))
    miss = level - direct * course_over(rows.place, when).upright - diffuse
    return float(np.sqrt(np.mean(miss**2)))


def _refuse_wrong_zone(
    rows: Rows, lit: np.ndarray[tuple[int], np.dtype[np.int64]], best: float, rms: float
) -> None:
    few = lit[:: max(1, len(lit) // 300)]
    hours = [hour for hour in range(-12, 13) if hour]
    other = min(hours, key=lambda hour: _rms(rows, few, best + 60.0 * hour))
    found = _rms(rows, few, best + 60.0 * other)
    if found > 0.5 * rms:
        return
    zone = rows.zone_h - other
    reason = (
        f"The light closes to {found:.0f} W/m2 with the clock {zone:+g} h from UTC, "
        f"to {rms:.0f} W/m2 with the {rows.zone_h:+g} h that the file's head has."
    )
    cure = "Look at the head: the time zone counts east positive, and the longitude too."
    raise refuse(rows.name, reason, cure, line=1, key="time zone", value=f"{rows.zone_h:+g}")


def _words(after_min: float) -> str:
    if after_min == 0:
        return "at its stamp"
    return f"{abs(after_min):.0f} min {'before' if after_min < 0 else 'after'} its stamp"
