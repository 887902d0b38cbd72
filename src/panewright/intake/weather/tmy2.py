"""TMY2: a line of the place, then a line of 142 letters an hour, each figure at its own place in it.

W. Marion, K. Urban, User's Manual for TMY2s, NREL/SP-463-7668, 1995, tables 3-1 and 3-2 (recalled; a file
seen). The hour is the one that ends at its number, 1 to 24.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

import numpy as np

from panewright.intake.grid import refuse
from panewright.intake.weather.rows import (
    AGAIN,
    SIDE,
    Rows,
    loosely,
    missing,
    numbers,
    place_of,
    whole,
    zone_of,
)
from panewright.sky.hours import Floats

_HEAD = re.compile(
    r"\s*(?P<number>\d{4,6})\s+(?P<city>.+?)\s+(?P<state>[A-Z]{2})\s+(?P<zone>[+-]?\d+)"
    r"\s+(?P<north>[NS])\s*(?P<lat>\d+)\s+(?P<lat_min>\d+)\s+(?P<east>[EW])\s*(?P<lon>\d+)\s+(?P<lon_min>\d+)"
    r"\s+(?P<altitude>-?\d+)\s*"
)
#: where a figure stands in the line, its mark of a missing one, what it is multiplied by
_FIELDS = {
    "level": ((17, 21), 9999.0, 1.0),
    "direct": ((23, 27), 9999.0, 1.0),
    "diffuse": ((29, 33), 9999.0, 1.0),
    "air": ((67, 71), 9999.0, 0.1),
    "wind": ((95, 98), 999.0, 0.1),
    "snow": ((133, 136), 999.0, 10.0),
}
_LEAST = 136  #: letters, to the snow
_NEVER = -1e9


def is_tmy2(lines: Sequence[str]) -> bool:
    """Whether the first line is a TMY2's."""
    return _HEAD.fullmatch(lines[0]) is not None


def tmy2_rows(lines: Sequence[str], name: str) -> Rows:
    """The rows of a TMY2 file; `SheetError` where they are none."""
    head = _HEAD.fullmatch(lines[0])
    if head is None:
        raise ValueError("asked for the rows of a file that is no TMY2")
    hours = [(line, number) for number, line in enumerate(lines[1:], start=2) if line.strip()]
    for line, number in hours:
        if len(line) < _LEAST:
            reason = f"The row has {len(line)} letters where at least {_LEAST} are needed."
            raise refuse(name, reason, AGAIN, line=number, value=line[:40])
    numbered = np.array([number for _, number in hours], np.int64)

    def at(span: tuple[int, int], key: str) -> Floats:
        texts = [line[slice(*span)].strip() for line, _ in hours]
        return loosely([(text,) for text in texts], 0) if key in SIDE else numbers(texts, numbered, name, key)

    figures = {
        key: missing(at(span, key), (_NEVER, mark)) * times for key, (span, mark, times) in _FIELDS.items()
    }
    latitude = _degrees(head["lat"], head["lat_min"], -1 if head["north"] == "S" else 1)
    longitude = _degrees(head["lon"], head["lon_min"], -1 if head["east"] == "W" else 1)
    return Rows(
        name,
        "TMY2",
        f"{head['city']}, {head['state']}",
        place_of((latitude, longitude, head["altitude"]), (name, 1)),
        zone_of(head["zone"], (name, 1)),
        numbered,
        whole(at((1, 3), "year"), (0, 99), numbered, (name, "year")) + 1900,
        whole(at((3, 5), "month"), (1, 12), numbered, (name, "month")),
        whole(at((5, 7), "day"), (1, 31), numbered, (name, "day")),
        whole(at((7, 9), "hour"), (1, 24), numbered, (name, "hour")).astype(float),
        figures,
    )


def _degrees(degrees: str, minutes: str, sign: int) -> str:
    return repr(sign * (int(degrees) + int(minutes) / 60))
