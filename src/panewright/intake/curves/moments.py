"""Days and times of day as people and loggers write them.

04.05.2026 is the fourth of May. With strokes, 5/4/2026, it may be either: it is settled only where one of
both is past twelve. A time of day alone runs on past midnight where it leaps back.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

import numpy as np
from numpy.typing import NDArray

_DAY = re.compile(
    r"(\d{4})-(\d{1,2})-(\d{1,2})|(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4})|(\d{1,2})/(\d{1,2})/(\d{4})"
)
_CLOCK = re.compile(r"(?<!\d)(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?\s*([AaPp]\.?[Mm]\.?)?(?![\d:])")
_A_DAY_S = 86_400.0


@dataclass(frozen=True, slots=True)
class Moment:
    """A day, a time of day, or both, as far as they were written."""

    day: date | None = None
    clock_s: float | None = None  #: seconds since midnight
    doubt: str = ""  #: why the day is not settled

    @property
    def whole(self) -> datetime | None:
        """Day and time together, if both are known; of the place's own clock."""
        if self.day is None or self.clock_s is None:
            return None
        return datetime.combine(self.day, time()) + timedelta(seconds=self.clock_s)


def moment(text: str) -> Moment | None:
    """What of a moment is written here; None where nothing is.

    >>> moment("04.05.2026 12:31:05").whole.isoformat(), moment("1:05 PM").clock_s
    ('2026-05-04T12:31:05', 47100.0)
    >>> moment("5/4/2026").doubt, moment("5/24/2026").day.isoformat(), moment("0.61")
    ('5/4/2026 may be either of two days.', '2026-05-24', None)
    """
    day, clock = _DAY.search(text), _CLOCK.search(text)
    if day is None and clock is None:
        return None
    found, doubt = _day(day) if day else (None, "")
    seconds = _seconds(clock) if clock else None
    if found is None and seconds is None and not doubt:
        return None
    return Moment(found, seconds, doubt)


def _day(found: re.Match[str]) -> tuple[date | None, str]:
    iso, dotted, stroked = found.groups()[:3], found.groups()[3:6], found.groups()[6:]
    if stroked[0]:
        first, second, year = map(int, stroked)
        if first <= 12 and second <= 12 and first != second:
            return None, f"{found.group()} may be either of two days."
        parts = (year, second, first) if first > 12 else (year, first, second)
    else:
        parts = tuple(map(int, iso if iso[0] else dotted[::-1]))  # type: ignore[assignment]
    try:
        return date(*parts), ""
    except ValueError:
        return None, f"{found.group()} is no day."


def _seconds(found: re.Match[str]) -> float | None:
    hours, minutes, seconds, part, half = found.groups()
    hour = int(hours)
    if half:
        hour = hour % 12 + 12 * (half[0] in "pP")
    if hour > 23 or int(minutes) > 59 or int(seconds or 0) > 59:
        return None
    return 3600.0 * hour + 60 * int(minutes) + int(seconds or 0) + float(f"0.{part or 0}")


def elapsed_s(texts: Sequence[str]) -> NDArray[np.float64]:
    """Seconds since the first of several moments of one kind; nan where none is written.

    >>> elapsed_s(["23:59:59", "0:00:01", "x"]).tolist()
    [0.0, 2.0, nan]
    """
    read = {text: moment(text) for text in dict.fromkeys(texts)}
    spans = {text: _span_s(each) for text, each in read.items()}
    seconds = np.array([spans[text] for text in texts], np.float64)
    known = np.flatnonzero(np.isfinite(seconds))
    if not known.size:
        return seconds
    if all(each is None or each.day is None for each in read.values()):
        back = np.diff(seconds[known]) < -_A_DAY_S / 2
        seconds[known[1:]] += _A_DAY_S * np.cumsum(back)
    return np.asarray(seconds - seconds[known[0]])


def _span_s(each: Moment | None) -> float:
    if each is None or each.clock_s is None:
        return np.nan
    return each.clock_s + (_A_DAY_S * each.day.toordinal() if each.day else 0.0)
