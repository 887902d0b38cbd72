"""What stands in a weather file, row by row: figures in SI, nan where one is missing, not yet hours."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from panewright.errors import Problem, SheetError, SkyError
from panewright.intake.bounds import MOST_ROWS
from panewright.intake.grid import refuse
from panewright.sky.hours import Floats
from panewright.sky.place import Place

Ints = NDArray[np.int64]
AGAIN = "Take the file again from where it came from."


@dataclass(frozen=True)
class Rows:
    """The rows of a weather file in its own order."""

    name: str  #: of the file
    kind: str  #: 'EPW', 'TMY3', ...
    title: str  #: of the place, as written
    place: Place
    zone_h: float  #: of the clock in the file against UTC
    lines: Ints  #: of each row in the file, from 1
    year: Ints
    month: Ints
    day: Ints
    clock_h: Floats  #: as stamped, from the day's midnight, 24 its end
    figures: dict[str, Floats]  #: by the names of `SPANS`
    usual_min: float = -30.0  #: from the stamp to the hour's middle, as the format says
    local_h: float | None = None  #: of the place's own clock, where the file keeps another
    said: tuple[str, ...] = field(default=())


#: What a figure may be, each in its unit: no place on Earth has another.
SPANS = {
    "level": (-30.0, 1600.0, "W/m2"),
    "direct": (-30.0, 1500.0, "W/m2"),
    "diffuse": (-30.0, 1200.0, "W/m2"),
    "air": (-90.0, 60.0, "degC"),
    "wind": (0.0, 100.0, "m/s"),
    "albedo": (0.0, 1.0, "share"),
    "snow": (0.0, 15000.0, "mm"),
}
SIDE = ("albedo", "snow")  #: what a file may leave out, or have wrong, and still be read


def fields_of(lines: Sequence[str], first: int, least: int, name: str) -> tuple[list[list[str]], Ints]:
    """Rows of a table from a line on, with their numbers; empty ones left out, one too short refused."""
    try:
        rows = list(csv.reader(lines[first - 1 :]))
    except csv.Error as broken:
        raise refuse(name, f"The table cannot be read: {broken}.", AGAIN, line=first) from broken
    kept = [(row, first + place) for place, row in enumerate(rows) if any(map(str.strip, row))]
    if len(kept) > MOST_ROWS:
        raise refuse(name, f"{len(kept)} rows are more than {MOST_ROWS}.", "Cut the file into years.")
    for row, number in kept:
        if len(row) < least:
            reason = f"The row has {len(row)} fields where at least {least} are needed."
            raise refuse(name, reason, AGAIN, line=number, value=",".join(row)[:60])
    return [row for row, _ in kept], np.array([number for _, number in kept], np.int64)


def column(rows: Sequence[Sequence[str]], place: int, lines: Ints, name: str, key: str) -> Floats:
    """Figures of one column; one that is none is refused with its row. A row that ends before it has none."""
    texts = [row[place].strip() if place < len(row) else "nan" for row in rows]
    return numbers(texts, lines, name, key)


def loosely(rows: Sequence[Sequence[str]], place: int) -> Floats:
    """Figures of a column that matters little: nan for each that is none."""
    found = np.array([_number(row[place].strip()) if place < len(row) else np.nan for row in rows])
    return np.where(np.isfinite(found), found, np.nan)


def numbers(texts: Sequence[str], lines: Ints, name: str, key: str) -> Floats:
    """Texts as figures; nan where one is empty."""
    try:
        found = np.array([text or "nan" for text in texts], dtype=float)
    except ValueError:
        found = np.array([_number(text) for text in texts])
        place = int(np.argmax(np.isneginf(found)))
        raise _no_figure(name, key, int(lines[place]), texts[place]) from None
    if np.isinf(found).any():
        place = int(np.argmax(np.isinf(found)))
        raise _no_figure(name, key, int(lines[place]), texts[place])
    return found


def _number(text: str) -> float:
    """A figure, or less than all of them where it is none."""
    try:
        return float(text or "nan")
    except ValueError:
        return -np.inf


def _no_figure(name: str, key: str, line: int, text: str) -> SheetError:
    return refuse(name, "This is no figure.", AGAIN, line=line, key=key, value=text[:40])


def within(key: str, found: Floats, lines: Ints, name: str) -> Floats:
    """The same figures, a little below zero as zero; one that cannot be is refused with its row.

    Of what matters little it is left out.
    """
    low, high, unit = SPANS[key]
    bad = (found < low) | (found > high)
    if key in SIDE:
        return np.where(bad, np.nan, found)
    if bad.any():
        place = int(np.argmax(bad))
        cure = (
            f"It should lie within {max(low, 0.0) if unit == 'W/m2' else low:g} and {high:g} {unit}. {AGAIN}"
        )
        value = f"{found[place]:g}"
        raise refuse(
            name, "This cannot be.", cure, line=int(lines[place]), key=f"{key} [{unit}]", value=value
        )
    return np.maximum(found, 0.0) if unit == "W/m2" else found


def place_of(told: Sequence[str], where: tuple[str, int]) -> Place:
    """The place of latitude, longitude and altitude in a file's head; `SheetError` where there is none."""
    latitude, longitude, altitude = (
        head_number(text, key, where)
        for text, key in zip(told, ("latitude", "longitude", "altitude"), strict=True)
    )
    try:
        return Place(latitude, longitude, altitude)
    except SkyError as wrong:
        problems = [
            Problem(each.reason, each.cure, where[0], where[1], each.key, each.value)
            for each in wrong.problems
        ]
        raise SheetError(problems) from wrong


def head_number(text: str, key: str, where: tuple[str, int]) -> float:
    """A figure of the file's head."""
    found = _number(text.strip())
    if not np.isfinite(found):
        raise refuse(where[0], "This is no figure.", AGAIN, line=where[1], key=key, value=text.strip()[:40])
    return found


def zone_of(text: str, where: tuple[str, int]) -> float:
    """Hours of the clock against UTC."""
    zone = head_number(text, "time zone", where)
    if not -12 <= zone <= 14:
        cure = "Write hours against UTC, east positive: -12 to 14."
        raise refuse(where[0], "No clock stands so.", cure, line=where[1], key="time zone", value=f"{zone:g}")
    return zone


def whole(found: Floats, span: tuple[int, int], lines: Ints, where: tuple[str, str]) -> Ints:
    """Whole numbers of a date within their span."""
    name, key = where
    bad = ~((found >= span[0]) & (found <= span[1]) & (found == np.round(found)))
    if bad.any():
        place = int(np.argmax(bad))
        cure = f"It is a whole number, {span[0]} to {span[1]}. {AGAIN}"
        value = f"{found[place]:g}"
        raise refuse(name, "This is no date.", cure, line=int(lines[place]), key=key, value=value)
    return found.astype(np.int64)


def missing(found: Floats, marks: tuple[float, float]) -> Floats:
    """Figures with nan where the file marks one as missing: at or past one of its two marks."""
    return np.where((found <= marks[0]) | (found >= marks[1]), np.nan, found)
