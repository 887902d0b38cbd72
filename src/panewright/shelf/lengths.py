"""Lengths in which a thing is sold, as a person writes them: "3 m; 4 m"."""

from __future__ import annotations

from panewright.shelf.key import Fault
from panewright.units import UnitError, read

_LEAST_MM, _MOST_MM = 500.0, 12e3


def lengths_mm(key: str, text: str) -> tuple[float, ...]:
    """The lengths in a text, the shortest first, or a Fault that names the one which cannot be read. [mm]

    >>> lengths_mm("bars", "4 m; 3 m"), lengths_mm("bars", "")
    ((3000.0, 4000.0), ())
    """
    parts = (part.strip() for part in text.split(";"))
    return tuple(sorted({_length(key, part) for part in parts if part}))


def _length(key: str, text: str) -> float:
    try:
        found = read(text, "size")
    except UnitError as mistake:
        raise Fault(f"{text[:40]}: {mistake.reason}", _cure(key), key) from mistake
    if not _LEAST_MM <= found <= _MOST_MM:
        raise Fault(f"{text[:40]} is no length of a bar, 0.5 m to 12 m.", _cure(key), key)
    return found


def _cure(key: str) -> str:
    return f'Write each length with its unit and part them by ;, as in {key} = "3 m; 4 m".'
