"""PVGIS: a typical year, or the hours of true years on level ground, as CSV or as JSON.

Stamps are UTC, and the light is that of a moment, not the mean of an hour: a satellite looked. Which moment,
a typical year's head says as an offset in hours, and the hours of true years have it in their minutes.
Field names as PVGIS 5 writes them (recalled; the readers of an open library seen).
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from panewright.intake.grid import refuse
from panewright.intake.weather.rows import (
    AGAIN,
    Ints,
    Rows,
    column,
    fields_of,
    head_number,
    numbers,
    place_of,
    whole,
)
from panewright.sky.hours import Floats
from panewright.sky.place import Place

_TYPICAL = {"level": "G(h)", "direct": "Gb(n)", "diffuse": "Gd(h)", "air": "T2m", "wind": "WS10m"}
_TRUE = {"beam": "Gb(i)", "diffuse": "Gd(i)", "air": "T2m", "wind": "WS10m"}
_PLACE = ("latitude (decimal degrees)", "longitude (decimal degrees)", "elevation (m)")
_STAMP = re.compile(r"(\d{4})(\d{2})(\d{2}):(\d{2})(\d{2})")
_LEVEL = "Ask PVGIS for the typical year (TMY), or for the hours on slope 0 with the components of the light."


def is_csv(lines: Sequence[str]) -> bool:
    """Whether the head is that of a PVGIS table."""
    return lines[0].lower().startswith("latitude (decimal degrees)")


def csv_rows(lines: Sequence[str], name: str) -> Rows:
    """The rows of a table; `SheetError` where they are none."""
    first = next((number for number, line in enumerate(lines, start=1) if line.startswith("time")), 0)
    if not first:
        raise refuse(name, "No line of headings begins with time.", AGAIN, key="time(UTC)")
    head = _head(lines[: first - 1])
    told = [head.get(key, ("", 1)) for key in _PLACE]
    place = place_of([text for text, _ in told], (name, told[0][1]))
    offset, at = head.get("irradiance time offset (h)", ("0", 1))
    slope, _ = head.get("slope", ("0", 1))
    hour = head_number(offset, "irradiance time offset", (name, at))
    return _rows(_table(lines, first, name, place), hour, _slope(slope))


def _head(lines: Sequence[str]) -> dict[str, tuple[str, int]]:
    """What the lines over the table say, each with its number."""
    parted = [(line.partition(":"), number) for number, line in enumerate(lines, start=1)]
    return {key.strip().lower(): (text.strip(), number) for (key, colon, text), number in parted if colon}


def _table(lines: Sequence[str], first: int, name: str, place: Place) -> _Found:
    """The table whose headings stand on that line; it ends where a line begins with no figure."""
    names = [each.strip() for each in lines[first - 1].split(",")]
    end = next((n for n, line in enumerate(lines[first:], start=first) if not line[:1].isdigit()), len(lines))
    columns = _columns(names, name, first)
    least = 1 + max(names.index(heading) for heading in columns.values())
    rows, numbered = fields_of(lines[:end], first + 1, least, name)
    figures = {
        key: column(rows, names.index(heading), numbered, name, heading) for key, heading in columns.items()
    }
    return _Found(name, place, [row[0] for row in rows], numbered, figures)


def is_json(text: str) -> bool:
    """Whether the file is JSON at all; PVGIS alone writes weather so, of what is read here."""
    return text.lstrip()[:1] == "{"


def json_rows(text: str, name: str) -> Rows:
    """The rows of a JSON file; `SheetError` where they are none."""
    try:
        told = json.loads(text)
    except (ValueError, RecursionError) as broken:
        line = getattr(broken, "lineno", None)
        raise refuse(name, "It begins as JSON, but is not whole.", AGAIN, line=line) from broken
    outputs, inputs = _part(told, "outputs", name), _part(told, "inputs", name)
    location = _part(inputs, "location", name)
    where = [str(location.get(field, "")) for field in ("latitude", "longitude", "elevation")]
    hour = head_number(str(_deep(told, "irradiance_time_offset", 0)), "irradiance time offset", (name, 1))
    slope = _deep(inputs, "slope", 0)
    found = _hours(outputs.get("tmy_hourly", outputs.get("hourly")), name, place_of(where, (name, 1)))
    return _rows(found, hour, _slope(str(slope.get("value", 0) if isinstance(slope, dict) else slope)))


def _hours(hours: Any, name: str, place: Place) -> _Found:
    """The list of hours; a row of it is counted from 1."""
    if not (isinstance(hours, list) and hours and all(isinstance(hour, dict) for hour in hours)):
        raise refuse(name, "There are no hours in it.", _LEVEL, key="outputs.tmy_hourly")
    numbered = np.arange(1, len(hours) + 1)
    figures = {
        key: numbers([str(hour.get(heading, "")) for hour in hours], numbered, name, heading)
        for key, heading in _columns(list(hours[0]), name, 1).items()
    }
    stamp = "time(UTC)" if "time(UTC)" in hours[0] else "time"
    return _Found(name, place, [str(hour.get(stamp, "")) for hour in hours], numbered, figures)


@dataclass(frozen=True)
class _Found:
    """What either form of the file gave."""

    name: str
    place: Place
    stamps: Sequence[str]
    lines: Ints
    figures: dict[str, Floats]


def _rows(found: _Found, offset_h: float, slope_deg: float) -> Rows:
    true = "beam" in found.figures
    if true and slope_deg != 0:
        reason = f"The light is that on a plane {slope_deg:g} degrees steep, not on level ground."
        raise refuse(found.name, reason, _LEVEL, key="slope")
    figures = dict(found.figures)
    if true:
        figures["level"] = figures.pop("beam") + figures["diffuse"]
        figures["direct"] = np.full(len(found.lines), np.nan)
    return Rows(
        found.name,
        "PVGIS",
        "",
        found.place,
        0.0,
        found.lines,
        *_dates(found),
        figures,
        usual_min=round(offset_h * 60, 3),
        local_h=float(round(found.place.longitude_deg / 15)),
    )


def _dates(found: _Found) -> tuple[Ints, Ints, Ints, Floats]:
    """Year, month, day and the clock's hour of each row."""
    name, lines = found.name, found.lines
    read = [_STAMP.fullmatch(stamp.strip()) for stamp in found.stamps]
    if None in read:
        place = read.index(None)
        cure, value = f"A time reads as in 20160131:1300. {AGAIN}", found.stamps[place][:40]
        raise refuse(name, "This is no time.", cure, line=int(lines[place]), key="time", value=value)
    parts = np.array([[int(part) for part in each.groups()] for each in read if each is not None])
    year, month, day, hour, minute = parts.T
    whole(hour.astype(float), (0, 23), lines, (name, "hour"))
    whole(minute.astype(float), (0, 59), lines, (name, "minute"))
    return (
        year,
        whole(month.astype(float), (1, 12), lines, (name, "month")),
        whole(day.astype(float), (1, 31), lines, (name, "day")),
        hour + minute / 60,
    )


def _columns(names: Sequence[str], name: str, line: int) -> dict[str, str]:
    """Which columns there are: those of a typical year, else those of true years."""
    for columns in (_TYPICAL, _TRUE):
        if all(heading in names for heading in columns.values()):
            return columns
    missing = next(heading for heading in _TYPICAL.values() if heading not in names)
    raise refuse(name, "A column is missing.", _LEVEL, line=line, key=missing)


def _slope(text: str) -> float:
    """Of a text as in '30 deg. (optimum)'."""
    found = re.match(r"-?\d+(?:\.\d+)?", text.strip())
    return float(found[0]) if found else 0.0


def _part(told: Any, key: str, name: str) -> Mapping[str, Any]:
    part = told.get(key) if isinstance(told, dict) else None
    if not isinstance(part, dict):
        raise refuse(name, "This is JSON, but not of PVGIS.", _LEVEL, key=key)
    return part


def _deep(told: Any, key: str, otherwise: Any) -> Any:
    """The value of a key at any depth but the hours'; files of several editions have it elsewhere."""
    if not isinstance(told, dict):
        return otherwise
    if key in told and not (isinstance(told[key], dict) and "description" in told[key]):
        return told[key]
    inner = (_deep(part, key, None) for field, part in told.items() if field not in ("outputs", "meta"))
    return next((found for found in inner if found is not None), otherwise)
