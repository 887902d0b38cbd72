"""Hours that a file leaves out: short gaps filled from their neighbours and told, long ones refused."""

from __future__ import annotations

import numpy as np

from panewright.intake.grid import refuse
from panewright.intake.weather.rows import AGAIN
from panewright.sky.hours import MONTH_DAYS, YEAR_HOURS, Floats

LONGEST_GAP_H = 3
USUAL_WIND_M_S = 2.0  #: where a file tells none at all; common practice, no source
WORDS = {
    "level": "light on level ground",
    "direct": "direct light",
    "diffuse": "light of the sky",
    "air": "air",
}


def filled(key: str, found: Floats, name: str) -> tuple[Floats, tuple[str, ...]]:
    """The year without gaps, and what was filled; `SheetError` for a gap of more than three hours."""
    gone = np.isnan(found)
    if not gone.any():
        return found, ()
    first, length = _longest(gone)
    if length > LONGEST_GAP_H:
        reason = f"{WORDS[key].capitalize()} is missing for {length} hours from {_when(first)} on."
        raise refuse(name, reason, f"At most {LONGEST_GAP_H} hours are filled. {AGAIN}", key=key)
    where = f"filled from their neighbours, first {_when(int(np.argmax(gone)))}"
    told = f"{int(gone.sum())} hours without {WORDS[key]} are {where}."
    return _between(found, gone), (told,)


def bridged(found: Floats) -> Floats | None:
    """The year with its gaps filled however long, for what matters little; None where nothing is told."""
    gone = np.isnan(found)
    return None if gone.all() else _between(found, gone)


def wind(found: Floats) -> tuple[Floats, tuple[str, ...]]:
    """Wind without gaps: of long ones the year's middle, of none at all the usual, and that told."""
    gone = np.isnan(found)
    if gone.all():
        told = f"The file tells no wind: {USUAL_WIND_M_S:g} m/s is taken all year (common practice)."
        return np.full(YEAR_HOURS, USUAL_WIND_M_S), (told,)
    if not gone.any():
        return found, ()
    if _longest(gone)[1] <= LONGEST_GAP_H:
        return _between(found, gone), (
            f"{int(gone.sum())} hours without wind are filled from their neighbours.",
        )
    mean = float(np.nanmean(found))
    return np.where(gone, mean, found), (
        f"{int(gone.sum())} hours without wind are the year's mean, {mean:.1f} m/s.",
    )


def _between(found: Floats, gone: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]) -> Floats:
    """Gaps bridged evenly; the year is a ring."""
    place = np.arange(len(found))
    return np.asarray(np.interp(place, place[~gone], found[~gone], period=len(found)))


def _longest(gone: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]) -> tuple[int, int]:
    """First hour and length of the longest gap, over the turn of the year too."""
    if gone.all():
        return 0, len(gone)
    turned = int(np.argmin(gone))
    ring = np.concatenate([[False], np.roll(gone, -turned), [False]]).astype(np.int8)
    starts, ends = np.flatnonzero(np.diff(ring) == 1), np.flatnonzero(np.diff(ring) == -1)
    place = int(np.argmax(ends - starts))
    return int((starts[place] + turned) % len(gone)), int(ends[place] - starts[place])


def _when(hour: int) -> str:
    """An hour of the year as a person reads it, by the file's own clock."""
    day, month = hour // 24, 0
    while day >= MONTH_DAYS[month]:
        day, month = day - MONTH_DAYS[month], month + 1
    return f"{month + 1:02}-{day + 1:02} {hour % 24:02}:00"
