"""Where on each bus ribbon the tabs come down and the leads leave, and where each tail bends, from one end.

The datum is the left end as the piece lies on the bench, sunny side down; so a rule hooked there marks the
whole bus and no error adds up from tab to tab. A tail's datum is its end on the bus.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from panewright.layup.layup import Bus, Layup, Tail
from panewright.layup.lengths import bus_name

Mark = Literal["tab", "lead", "tap", "bend"]


@dataclass(frozen=True, slots=True)
class Station:
    """One place on a bus."""

    at_mm: float  #: from the left end on the bench
    what: Mark


@dataclass(frozen=True, slots=True)
class BusKind:
    """Buses, or tails, cut and marked alike."""

    name: str
    length_mm: float
    stations: tuple[Station, ...]
    quantity: int
    sleeve_mm: float = 0.0  #: insulating sleeve over it, from its first bend on


def bus_kinds(layup: Layup) -> tuple[BusKind, ...]:
    """Every bus and every tail by how it is cut and marked, the longest first."""
    buses = ((bus_name(bus), round(bus.length_mm, 3), stations(layup, bus), 0.0) for bus in layup.buses)
    tails = ((t.name, round(t.length_mm, 3), _bends(t), round(t.sleeve_mm, 3)) for t in layup.tails)
    counts = Counter((*buses, *tails))
    kinds = [
        BusKind(name, length, marks, many, sleeve) for (name, length, marks, sleeve), many in counts.items()
    ]
    return tuple(sorted(kinds, key=lambda kind: (-kind.length_mm, kind.name, _places(kind))))


def _bends(tail: Tail) -> tuple[Station, ...]:
    """Where a tail is bent: up from its bus; a far one along the back and up again into the box."""
    return tuple(Station(round(at, 3), "bend") for at in tail.bends_mm)


def stations(layup: Layup, bus: Bus) -> tuple[Station, ...]:
    """Tabs, leads and taps on one bus, left to right on the bench."""
    right = bus.points[-1][0]  # the sunny side's right end is the bench's left
    found = [Station(round(right - x, 3), what) for x, what in _on(layup, bus)]
    return tuple(sorted(found, key=lambda station: (station.at_mm, station.what)))


def _on(layup: Layup, bus: Bus) -> Iterator[tuple[float, Mark]]:
    for x in bus.tabs_x_mm:
        yield x, "tab"
    for lead in layup.leads:
        if lead.pole == bus.pole:
            yield lead.at[0], "lead"
    for tap in layup.taps:
        if bus.pole == "between" and tap.after_cell == bus.after_cell:
            yield tap.at[0], "tap"


def _places(kind: BusKind) -> tuple[float, ...]:
    return tuple(station.at_mm for station in kind.stations)
