"""EPW: eight lines of head, of which the first names the place, then a row an hour.

Columns and marks of what is missing: EnergyPlus Auxiliary Programs, chapter on the weather file (recalled).
Columns are taken by their place from the left, so that more of them at the end do no harm.
"""

from __future__ import annotations

import csv
from collections.abc import Sequence

import numpy as np

from panewright.intake.grid import refuse
from panewright.intake.weather.rows import (
    AGAIN,
    SIDE,
    Rows,
    column,
    fields_of,
    loosely,
    missing,
    place_of,
    whole,
    zone_of,
)
from panewright.sky.hours import Floats

_NEVER = -1e9
#: each figure's column, its mark of a missing one, and what it is multiplied by
_COLUMNS = {
    "air": (6, 99.9, 1.0),
    "level": (13, 9999.0, 1.0),
    "direct": (14, 9999.0, 1.0),
    "diffuse": (15, 9999.0, 1.0),
    "wind": (21, 999.0, 1.0),
    "snow": (30, 999.0, 10.0),
    "albedo": (32, 999.0, 1.0),
}
_LEAST = 22  #: fields, to the wind


def is_epw(lines: Sequence[str]) -> bool:
    """Whether the first line is an EPW's."""
    return lines[0].lstrip().upper().startswith("LOCATION,")


def epw_rows(lines: Sequence[str], name: str) -> Rows:
    """The rows of an EPW file; `SheetError` where they are none."""
    head = next(csv.reader(lines[:1]))
    if len(head) < 10:
        reason = "The line of the place has fewer than ten fields."
        raise refuse(name, reason, AGAIN, line=1, value=lines[0][:60])
    place = place_of((head[6], head[7], head[9]), (name, 1))
    rows, numbered = fields_of(lines, _first(lines, name), _LEAST, name)

    def at(index: int, key: str) -> Floats:
        return loosely(rows, index) if key in SIDE else column(rows, index, numbered, name, key)

    figures = {
        key: missing(at(index, key), (_NEVER, mark)) * times for key, (index, mark, times) in _COLUMNS.items()
    }
    figures["albedo"] = np.where(
        figures["albedo"] == 0, np.nan, figures["albedo"]
    )  # so many programs write none
    return Rows(
        name,
        "EPW",
        ", ".join(part.strip() for part in head[1:4] if part.strip(" -")),
        place,
        zone_of(head[8], (name, 1)),
        numbered,
        whole(at(0, "year"), (0, 9999), numbered, (name, "year")),
        whole(at(1, "month"), (1, 12), numbered, (name, "month")),
        whole(at(2, "day"), (1, 31), numbered, (name, "day")),
        whole(at(3, "hour"), (0, 24), numbered, (name, "hour")).astype(float),
        figures,
    )


def _first(lines: Sequence[str], name: str) -> int:
    """The line on which the hours begin."""
    for number, line in enumerate(lines[1:40], start=2):
        first, _, rest = line.partition(",")
        if first.strip().isdigit() and rest.count(",") >= _LEAST - 2:
            return number
    raise refuse(name, "No row of an hour follows the file's head.", AGAIN, line=min(len(lines), 9))
