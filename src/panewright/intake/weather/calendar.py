"""Each row of a weather file to its hour of a year of 8760, whatever the file counts an hour by."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from panewright.intake.grid import refuse
from panewright.intake.weather.rows import AGAIN, Ints, Rows
from panewright.sky.hours import MONTH_DAYS, TYPICAL_YEAR, YEAR_HOURS, Floats, Moments

_BEFORE = np.concatenate([[0], np.cumsum(MONTH_DAYS)[:-1]])  # days before each month
_LONGEST = 8784  # hours of a leap year


def one_year(rows: Rows, year: int | None) -> Rows:
    """The rows of one year; `SheetError` where a file of several is read without saying which."""
    if year is None and len(rows.lines) <= _LONGEST + 1:
        return rows
    years, counts = np.unique(rows.year, return_counts=True)
    if year is None and len(years) == 1:
        return rows  # more rows than hours: the first hour that stands twice is told
    whole = [int(each) for each, count in zip(years, counts, strict=True) if count >= YEAR_HOURS]
    if year is None or year not in whole:
        shown = ", ".join(map(str, whole[:40])) or "none"
        reason = f"The file has {len(years)} years; whole ones: {shown}."
        cure = "Say which of them is to be read." if whole else "Name no year: months of several stand here."
        raise refuse(rows.name, reason, cure, key="year", value="" if year is None else str(year))
    return _kept(rows, rows.year == year)


def without_leap_days(rows: Rows) -> Rows:
    """Rows whose hour lies on 29 February left out, and that told."""
    _must_be_days(rows)
    leap, begun = (rows.month == 2) & (rows.day == 29), rows.clock_h + rows.usual_min / 60 > 0
    if not (leap & (rows.clock_h > 0)).any():
        return rows
    gone = (leap & begun) | ((rows.month == 3) & (rows.day == 1) & ~begun)  # its last hour may end on 1 March
    told = f"{int(gone.sum())} hours of 29 February are left out: a year here has 365 days."
    return replace(_kept(rows, ~gone), said=(*rows.said, told))


def slots(rows: Rows, after_min: float) -> Ints:
    """Of each row its hour of the year, 0 to 8759; `SheetError` where two rows have the same."""
    days = _BEFORE[rows.month - 1] + rows.day - 1
    minutes = np.round(days * 1440 + rows.clock_h * 60 + after_min, 3)
    found = np.floor(minutes / 60).astype(np.int64) % YEAR_HOURS
    _, first, counts = np.unique(found, return_index=True, return_counts=True)
    if (counts > 1).any():
        place = int(first[np.argmax(counts > 1)])
        again = int(np.flatnonzero(found == found[place])[1])
        reason = f"The hour of row {rows.lines[place]} stands here again."
        cure = "Leave one row an hour; a file of quarter hours has to be put to hours first."
        raise refuse(
            rows.name, reason, cure, line=int(rows.lines[again]), key="hour", value=stamp(rows, again)
        )
    return np.asarray(found)


def moments(rows: Rows, after_min: float) -> Moments:
    """The middle of each row's hour, UTC, within the typical year."""
    return typical(slots(rows, after_min), rows, after_min)


def typical(hours: Ints, rows: Rows, after_min: float) -> Moments:
    """The middles of hours of the typical year, UTC, to the minute at which this file has them."""
    first = np.datetime64(f"{TYPICAL_YEAR}-01-01", "s") + np.timedelta64(_minute_s(rows, after_min), "s")
    zone = np.timedelta64(round(rows.zone_h * 3600), "s")
    return np.asarray(first + hours * np.timedelta64(3600, "s") - zone)


def _minute_s(rows: Rows, after_min: float) -> int:
    """Seconds after the hour at which this file's hours have their middle; the same in all rows."""
    past = np.round((rows.clock_h * 60 + after_min) * 60).astype(np.int64) % 3600
    if (past != past[0]).any():
        place = int(np.argmax(past != past[0]))
        cure = "A file with one row an hour, each at the same minute, can be read."
        line, value = int(rows.lines[place]), stamp(rows, place)
        raise refuse(
            rows.name, "This row stands at another minute.", cure, line=line, key="time", value=value
        )
    return int(past[0])


def stamp(rows: Rows, place: int) -> str:
    """A row's date and clock, as a person reads them."""
    minutes = round(float(rows.clock_h[place]) * 60)
    return f"{rows.month[place]:02}-{rows.day[place]:02} {minutes // 60:02}:{minutes % 60:02}"


def _must_be_days(rows: Rows) -> None:
    allowed = np.array(MONTH_DAYS)[rows.month - 1] + (rows.month == 2)
    if (rows.day > allowed).any():
        place = int(np.argmax(rows.day > allowed))
        line, value = int(rows.lines[place]), stamp(rows, place)
        raise refuse(rows.name, "There is no such day.", AGAIN, line=line, key="date", value=value)


def _kept(rows: Rows, which: np.ndarray[tuple[int], np.dtype[np.bool_]]) -> Rows:
    figures: dict[str, Floats] = {key: found[which] for key, found in rows.figures.items()}
    return replace(
        rows, lines=rows.lines[which], year=rows.year[which], month=rows.month[which], day=rows.day[which],
        clock_h=rows.clock_h[which], figures=figures,
    )  # fmt: skip
