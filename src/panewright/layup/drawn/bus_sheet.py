"""Every kind of bus ribbon with its length to cut and where the tabs come down on it, from one datum.

A bus lies as on the bench, sunny side down. The datum is its left end. Each place is written at the foot of
a line from it, as the holes of a rail are. Tails follow, laid straight: their datum is the end on the bus.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from panewright import units
from panewright.drawing.dimension import figure_digits
from panewright.drawing.drawing import Arc, Dimension, Drawing, Item, Path, Text, box
from panewright.drawing.lettering import text_width_mm
from panewright.layup.drawn.signs import spread
from panewright.layup.layup import Layup
from panewright.layup.stations import BusKind, Station, bus_kinds


def bus_sheet(
    layup: Layup,
    text_mm: float = 8.0,
    system: str = "metric",
    *,
    panels: int = 1,
    kinds: Sequence[BusKind] | None = None,
) -> Drawing:
    """All kinds, or those told, below each other; the number is for `panels` panels."""
    items: list[Item] = []
    level, half = 0.0, max(layup.plan.bus_width_mm, 0.5 * text_mm) / 2
    for kind in bus_kinds(layup) if kinds is None else kinds:
        items += _title(kind, level + half, text_mm, panels, system)
        items += _ribbon(kind, level, half, text_mm)
        longest = max((_long(station, text_mm, system) for station in kind.stations), default=0.0)
        items += _places(kind.stations, level - half, text_mm, system)
        level -= longest + 10.0 * text_mm + 2 * half
    return Drawing("Bus ribbon to cut and mark", tuple(items), "sunny side down")


def _title(kind: BusKind, foot: float, text: float, panels: int, system: str) -> Iterator[Item]:
    """The number wanted, large, and what the piece does."""
    words = f"{kind.quantity * panels} ×"
    yield Text((0.0, foot + 4.2 * text), words, 1.4 * text, "text", bold=True)
    after = max(6.0 * text, text_width_mm(words, 1.4 * text, bold=True) + text)
    yield Text((after, foot + 4.2 * text), _named(kind, system), text, "text")


def _named(kind: BusKind, system: str) -> str:
    """What the piece does, and the sleeve that goes over it."""
    if not kind.sleeve_mm:
        return kind.name
    sleeve = units.show(kind.sleeve_mm, "mm", system, figure_digits(kind.sleeve_mm))
    return f"{kind.name}, in {sleeve} of sleeve from its first bend"


def _ribbon(kind: BusKind, level: float, half: float, text: float) -> Iterator[Item]:
    """The piece, its datum and its length to cut."""
    yield box(0.0, level - half, kind.length_mm, level + half, "bus", filled=True)
    if kind.sleeve_mm:
        start = kind.stations[0].at_mm
        yield box(start, level - 1.3 * half, start + kind.sleeve_mm, level + 1.3 * half, "border")
    yield Arc((0.0, level), 0.3 * text, "mark", filled=True)
    yield Dimension((0.0, level + half), (kind.length_mm, level + half), 1.8 * text, text, note="cut")


def _places(marks: tuple[Station, ...], foot: float, text: float, system: str) -> Iterator[Item]:
    """A line down from each place, and how far it is from the datum, side by side."""
    middles = spread([mark.at_mm for mark in marks], [1.15 * text] * len(marks), 0.15 * text)
    top, bend = foot - 0.6 * text, foot - 2.0 * text
    for mark, middle in zip(marks, middles, strict=True):
        yield Path(((mark.at_mm, foot), (mark.at_mm, top), (middle, bend)), "dimension")
        low = bend - 0.4 * text - _long(mark, text, system)
        yield Text((middle + 0.33 * text, low), _words(mark, system), text, "dimension", "left", 90.0)


def _words(mark: Station, system: str) -> str:
    told = units.show(mark.at_mm, "mm", system, figure_digits(mark.at_mm))
    return told if mark.what == "tab" else f"{mark.what}  {told}"


def _long(mark: Station, text: float, system: str) -> float:
    return text_width_mm(_words(mark, system), text)
