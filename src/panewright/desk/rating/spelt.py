"""Days, moments, places and lists as they are written beside a measurement; what is none says what would be.

Each raises `NoFigure`.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime

from panewright.desk.rating.figure import NoFigure, figure_of, within


def day(text: str) -> date:
    """Year, month and day."""
    try:
        found = date.fromisoformat(text)
    except ValueError as none:
        raise NoFigure("This is no day.", "Write year, month, day: 2026-06-20.") from none
    if not 2000 <= found.year <= 2199:
        raise NoFigure(
            f"The year {found.year} is none of this shop's.", "Write year, month, day: 2026-06-20."
        )
    return found


def moment(text: str) -> datetime:
    """Day, clock and zone."""
    cure = "Write day, clock and zone: 2026-06-20 12:40 +02:00."
    try:
        found = datetime.fromisoformat(text.replace(" +", "+").replace(" -", "-").replace(" Z", "Z"))
    except ValueError as none:
        raise NoFigure("This is no moment.", cure) from none
    if found.tzinfo is None:
        raise NoFigure("Without its zone this clock says nothing.", cure)
    return found


def yes(text: str) -> bool:
    """Yes or no."""
    if text.casefold() not in ("yes", "no", "true", "false"):
        raise NoFigure("This is neither yes nor no.", "Write yes or no.")
    return text.casefold() in ("yes", "true")


def place(text: str) -> tuple[float, ...]:
    """Latitude, longitude, and height where it is told."""
    parts = [each.strip() for each in text.split(",")]
    if len(parts) not in (2, 3):
        raise NoFigure("This is no place.", "Write latitude, longitude and height: 47.1, 8.6, 430 m.")
    height = figure_of(parts[2], "height")[0] if len(parts) == 3 else 0.0
    return within(bare(parts[0]), -90, 90, "degrees"), within(bare(parts[1]), -180, 180, "degrees"), height


def turned(text: str) -> tuple[float, ...]:
    """Tilt and azimuth."""
    parts = [each.strip() for each in text.split(",")]
    if len(parts) != 2:
        raise NoFigure("This does not say how it was turned.", "Write tilt and where it faces: 35, 180.")
    return within(bare(parts[0]), 0, 90, "degrees"), within(bare(parts[1]), 0, 360, "degrees")


def bare(text: str) -> float:
    """A number without a unit."""
    try:
        return float(text.removesuffix("°").removesuffix("deg"))
    except ValueError as none:
        raise NoFigure(f"{text[:20]!r} is no number.", "Write a plain number with a decimal point.") from none


def several(text: str, kind: str) -> tuple[float, ...]:
    """Readings with commas between, the unit once at the end or at each."""
    *firsts, last = [each.strip() for each in text.split(",")]
    unit = last.lstrip("0123456789.+- ")
    return tuple(_all(firsts, last, unit, kind))


def _all(firsts: list[str], last: str, unit: str, kind: str) -> Iterator[float]:
    for each in firsts:
        yield figure_of(each if each[-1:].isalpha() else f"{each} {unit}", kind)[0]
    yield figure_of(last, kind)[0]
