"""Ribbon to cut and buy: pieces by kind, metres, spools, how many joints are soldered; what cells weigh."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from panewright.cell.mass import all_kg
from panewright.layup.layup import Bus, Layup, Tab

TAB_WASTE = 0.03  #: share of tabbing ribbon lost to crooked ends and first tries; common practice
BUS_WASTE = 0.10  #: share of bus ribbon lost; pieces are few and of many lengths; common practice

Use = Literal["tab", "bus"]


@dataclass(frozen=True, slots=True)
class RibbonPiece:
    """One kind of piece to cut."""

    use: Use
    name: str
    length_mm: float
    quantity: int
    front_mm: float = 0.0  #: soldered to a sunny side
    back_mm: float = 0.0  #: soldered behind
    free_mm: float = 0.0  #: between or beyond, as the crow flies; bends add `length_mm` less all three
    steps: int = 0  #: bends

    @property
    def metres(self) -> float:
        """Ribbon in all these pieces. [m]"""
        return self.length_mm * self.quantity / 1000


@lru_cache(maxsize=64)
def tab_pieces(layup: Layup) -> tuple[RibbonPiece, ...]:
    """Tabbing ribbon by kind, the most numerous first."""
    counts = Counter(_tab_key(tab) for tab in layup.tabs)
    pieces = [
        RibbonPiece("tab", name, length, count, front, back, free, steps)
        for (name, length, front, back, free, steps), count in counts.items()
    ]
    return tuple(sorted(pieces, key=lambda piece: (-piece.quantity, piece.name, piece.length_mm)))


def _tab_key(tab: Tab) -> tuple[str, float, float, float, float, int]:
    front, back = _length(tab.front), _length(tab.back)
    run = sum(math.dist(a, b) for a, b in zip(tab.points, tab.points[1:], strict=False))
    if tab.from_cell is None or tab.to_cell is None:
        name = "front to bus" if tab.front else "back to bus"
    elif tab.front:
        name = "cell to cell"
    else:
        name, back = "pad to pad", run - math.dist(tab.points[1], tab.points[2])
    figures = (round(each, 3) for each in (tab.length_mm, front, back, run - front - back))
    length, front, back, free = figures
    return name, length, front, back, free, tab.steps


def _length(line: tuple[tuple[float, float], tuple[float, float]] | None) -> float:
    return math.dist(*line) if line else 0.0


@lru_cache(maxsize=64)
def bus_pieces(layup: Layup) -> tuple[RibbonPiece, ...]:
    """Bus ribbon by kind, the longest first: buses, and the tails that lead from them to the box."""
    buses = ((bus_name(bus), round(bus.length_mm, 3), 0) for bus in layup.buses)
    tails = ((tail.name, round(tail.length_mm, 3), len(tail.bends_mm)) for tail in layup.tails)
    counts = Counter((*buses, *tails))
    pieces = [
        RibbonPiece("bus", name, length, count, steps=bends)
        for (name, length, bends), count in counts.items()
    ]
    return tuple(sorted(pieces, key=lambda piece: (-piece.length_mm, piece.name)))


def bus_name(bus: Bus) -> str:
    """What a bus does, in words."""
    return "joins two columns" if bus.pole == "between" else f"gathers the {bus.pole} lead"


@lru_cache(maxsize=64)
def cells_kg(layup: Layup) -> float:
    """Mass of all cells. [kg]"""
    return all_kg(cell.shape for cell in layup.cells)


def ribbon_kg(pieces: Iterable[RibbonPiece], kg_per_m: float) -> float:
    """Mass of pieces of one ribbon, nothing lost. [kg]"""
    return sum(piece.metres for piece in pieces) * kg_per_m


@dataclass(frozen=True, slots=True)
class Joints:
    """Solder joints on one panel."""

    on_cells: int  #: one for each busbar and side
    on_buses: int  #: where tabs end on a bus
    of_leads: int  #: tails of leads and of diode taps, each on its bus

    @property
    def all(self) -> int:
        """Every joint of the panel."""
        return self.on_cells + self.on_buses + self.of_leads


@lru_cache(maxsize=64)
def joints(layup: Layup) -> Joints:
    """How many joints are soldered: a ribbon along a busbar counts as one."""
    on_cells = sum((tab.from_cell is not None) + (tab.to_cell is not None) for tab in layup.tabs)
    on_buses = sum((tab.from_cell is None) or (tab.to_cell is None) for tab in layup.tabs)
    return Joints(on_cells, on_buses, len(layup.tails))


def sleeve_m(layup: Layup) -> float:
    """Insulating sleeve over the tails that run along the back. [m]"""
    return sum(tail.sleeve_mm for tail in layup.tails) / 1000
