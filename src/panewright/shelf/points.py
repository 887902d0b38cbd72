"""Corners of a closed line as a person writes them: "0, 0; 30, 0; 30, 3; 3, 3; 3, 40; 0, 40 mm".

A comma stands between x and y, a semicolon between corners, | between lines. The unit stands once at the end,
or behind every figure. Figures are written as elsewhere, fractions too, with a point rather than a comma.
"""

from __future__ import annotations

import re

from panewright.shelf.key import Fault
from panewright.units import UnitError, read

Line = tuple[tuple[float, float], ...]

_MOST_LINES = 12
_FARTHEST_MM = 250.0
_UNIT = re.compile(r"\s*([A-Za-z]+|\"|''?)\s*$")
_CURE = 'Write each corner as x, y and part corners by ;, such as "0, 0; 30, 0; 30, 3 mm".'


def closed_lines(key: str, text: str, *, most: int = _MOST_LINES) -> tuple[Line, ...]:
    """The closed lines in a text [mm], or a Fault that names the corner which cannot be read.

    >>> closed_lines("outline", "0, 0; 1 1/2, 0; 0, 2 in")
    (((0.0, 0.0), (38.1, 0.0), (0.0, 50.8)),)
    """
    text = text.strip().rstrip(";|").rstrip()
    unit = _UNIT.search(text)
    if unit is None:
        raise Fault(f"{key} ends without a unit.", f"Write mm or in behind its last figure. {_CURE}", key)
    parts = text[: unit.start()].split("|")
    if len(parts) > most:
        raise Fault(f"{key} has {len(parts)} lines, {most} at most can be read.", _CURE, key)
    return tuple(_line(key, part, unit.group(1)) for part in parts)


def _line(key: str, text: str, unit: str) -> Line:
    """One closed line; a corner written again at its end closes it and counts once."""
    corners = text.strip().rstrip(";").split(";")
    line = tuple(_corner(key, number, corner, unit) for number, corner in enumerate(corners, 1))
    return line[:-1] if len(line) > 1 and line[0] == line[-1] else line


def _corner(key: str, number: int, text: str, unit: str) -> tuple[float, float]:
    shown = text.strip()[:40]
    figures = text.split(",")
    if len(figures) != 2:
        reason = f"Corner {number} of {key}, {shown!r}, is not two figures with a comma between them."
        raise Fault(reason, f"{_CURE} Decimals take a point.", key)
    try:
        x, y = (_figure(figure, unit) for figure in figures)
    except UnitError as mistake:
        raise Fault(f"Corner {number} of {key}, {shown!r}: {mistake.reason}", _CURE, key) from mistake
    if max(abs(x), abs(y)) > _FARTHEST_MM:
        reason = f"Corner {number} of {key}, {shown!r}, lies more than {_FARTHEST_MM:g} mm from the heel."
        raise Fault(reason, "Did the unit slip?", key)
    return x, y


def _figure(text: str, unit: str) -> float:
    own = text.strip()
    return read(own if _UNIT.search(own) else f"{own} {unit}", "size")
