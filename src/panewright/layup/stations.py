"""Where on each bus ribbon the tabs come down and the leads leave, from one end of the piece.

The datum is the left end as the piece lies on the bench, sunny side down; so a rule hooked there marks the
whole bus and no error adds up from tab to tab.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from panewright.layup.layup import Bus, Layup
from panewright.layup.lengths import bus_name

Mark = Literal["tab", "lead", "tap"]


@dataclass(frozen=True, slots=True)
class Station:
    """One place on a bus."""

    at_mm: float  #: from the left end on the bench
    what: Mark


@dataclass(frozen=True, slots=True)
class BusKind:
    """Buses cut and marked alike."""

    name: str
    length_mm: float
    stations: tuple[Station, ...]
    quantity: int


def bus_kinds(layup: Layup) -> tuple[BusKind, ...]:
    """Every bus by how it is cut and marked, the longest first."""
    counts = Counter((bus_name(bus), round(bus.length_mm, 3), stations(layup, bus)) for bus in layup.buses)
    kinds = [BusKind(name, length, marks, many) for (name, length, marks), many in counts.items()]
    return tuple(sorted(kinds, key=lambda kind: (-kind.length_mm, kind.name, _places(kind))))


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
