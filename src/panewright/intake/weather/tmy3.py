"""TMY3: a line of the place, a line of headings, then a row an hour, stamped at its end.

S. Wilcox, W. Marion, Users Manual for TMY3 Data Sets, NREL/TP-581-43156, 2008 (recalled; files seen).
Columns are found by their headings.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Sequence

import numpy as np

from panewright.intake.grid import refuse
from panewright.intake.weather.rows import (
    AGAIN,
    SIDE,
    Ints,
    Rows,
    column,
    fields_of,
    loosely,
    missing,
    numbers,
    place_of,
    whole,
    zone_of,
)
from panewright.sky.hours import Floats

_HEADINGS = {
    "level": "GHI (W/m^2)",
    "direct": "DNI (W/m^2)",
    "diffuse": "DHI (W/m^2)",
    "air": "Dry-bulb (C)",
    "wind": "Wspd (m/s)",
    "albedo": "Alb (unitless)",
}
_DATE, _TIME = "Date (MM/DD/YYYY)", "Time (HH:MM)"
_MARKS = (-9900.0, 9900.0)
_STAMP = re.compile(r"(\d{1,2})/(\d{1,2})/(\d{4}) (\d{1,2}):(\d{2})")


def is_tmy3(lines: Sequence[str]) -> bool:
    """Whether the second line has the headings."""
    return len(lines) > 1 and lines[1].lstrip('"').upper().startswith("DATE (MM/DD/YYYY)")


def tmy3_rows(lines: Sequence[str], name: str) -> Rows:
    """The rows of a TMY3 file; `SheetError` where they are none."""
    head = next(csv.reader(lines[:1]))
    if len(head) < 7:
        reason = "The line of the place has fewer than seven fields."
        raise refuse(name, reason, AGAIN, line=1, value=lines[0][:60])
    names = [heading.strip() for heading in next(csv.reader(lines[1:2]))]
    _must_have(names, name)
    rows, numbered = fields_of(lines, 3, 1 + max(names.index(each) for each in _needed()), name)
    date = _dates(
        [f"{row[names.index(_DATE)].strip()} {row[names.index(_TIME)].strip()}" for row in rows],
        numbered,
        name,
    )
    figures = {
        key: missing(
            loosely(rows, names.index(heading))
            if key in SIDE
            else column(rows, names.index(heading), numbered, name, heading),
            _MARKS,
        )
        for key, heading in _HEADINGS.items()
        if heading in names
    }
    if "albedo" in figures:  # nought marks one that is not known
        figures["albedo"] = np.where(figures["albedo"] == 0, np.nan, figures["albedo"])
    place, zone = place_of(head[4:7], (name, 1)), zone_of(head[3], (name, 1))
    return Rows(name, "TMY3", f"{head[1].strip()}, {head[2].strip()}", place, zone, numbered, *date, figures)


def _needed() -> tuple[str, ...]:
    return (_DATE, _TIME, *(heading for key, heading in _HEADINGS.items() if key != "albedo"))


def _must_have(names: Sequence[str], name: str) -> None:
    for heading in _needed():
        if heading not in names:
            cure = "A TMY3 file has all of: " + ", ".join(_needed()) + "."
            raise refuse(name, "A column is missing.", cure, line=2, key=heading)


def _dates(stamps: Sequence[str], lines: Ints, name: str) -> tuple[Ints, Ints, Ints, Floats]:
    """Year, month, day and the clock's hour of each row."""
    found = [_STAMP.fullmatch(stamp) for stamp in stamps]
    if None in found:
        place = found.index(None)
        cure = f"Date and time read as in 01/31/1990, 13:00. {AGAIN}"
        raise refuse(
            name, "This is no date.", cure, line=int(lines[place]), key="date", value=stamps[place][:40]
        )
    parts = [each.groups() for each in found if each is not None]
    month, day, year, hour, minute = (
        numbers([row[i] for row in parts], lines, name, "date") for i in range(5)
    )
    whole(hour, (0, 24), lines, (name, "hour"))
    return (
        year.astype(np.int64),
        whole(month, (1, 12), lines, (name, "month")),
        whole(day, (1, 31), lines, (name, "day")),
        hour + whole(minute, (0, 59), lines, (name, "minute")) / 60,
    )
