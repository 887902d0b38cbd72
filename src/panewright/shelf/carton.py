"""Corrugated board for cartons: how thick and strong it is, and what a carton of it may hold."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.shelf.key import Key
from panewright.shelf.reading import Reading


@dataclass(frozen=True, slots=True)
class CartonBoard:
    """A grade of corrugated board in sheets, with the limits of a carton that is folded of it."""

    name: str
    thick_mm: float
    density_kg_m3: float  #: of the board as it stands, its hollows with it
    edge_crush_n_m: float  #: a strip of it crushed on its edge
    most_kg: float  #: carton and what is in it
    most_sides_mm: float  #: outside, length, width and depth together
    sheet_long_mm: float
    sheet_wide_mm: float

    @property
    def kg_m2(self) -> float:
        """Mass of a square metre. [kg/m2]"""
        return self.thick_mm / 1000 * self.density_kg_m3


CARTON = (
    Key("carton", "thickness", "size", "", "6.5 mm", True, least="2 mm", most="20 mm"),
    Key("carton", "density", "density", "", "150 kg/m3", True, least="50 kg/m3", most="500 kg/m3"),
    Key(
        "carton",
        "edge_crush",
        "line force",
        "a strip of it crushed on its edge",
        "8.4 kN/m",
        True,
        least="1 kN/m",
        most="100 kN/m",
    ),
    Key("carton", "most_mass", "mass", "carton with content", "45 kg", True, least="1 kg", most="200 kg"),
    Key(
        "carton",
        "most_sides",
        "size",
        "length, width and depth together",
        "2413 mm",
        True,
        least="300 mm",
        most="6 m",
    ),
    Key("carton", "sheet_long", "size", "as it is sold", "2400 mm", True, least="300 mm", most="6 m"),
    Key("carton", "sheet_wide", "size", "as it is sold", "1200 mm", True, least="300 mm", most="3 m"),
)


def carton(name: str, row: Reading) -> CartonBoard:
    """A grade of board."""
    return CartonBoard(name, *(row.number(key.name) for key in CARTON))
