"""Boards of a crate: sizes as sold, mass, and what they bear.

A crate is no building: neither family of codes has a rule for it. Working stresses of this shop: softwood
7 MPa and plywood 13 MPa in bending, the characteristic 16 MPa of EN 338 C16 (recalled) and 30 MPa of common
structural plywood (recalled) over 2.3 (common practice, no source). Densities: common practice.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from panewright.units import INCH_MM

Stuff = Literal["plywood", "softwood", "foam", "card"]
Measure = Literal["metric", "us"]

WOOD_MPA, PLY_MPA = 7.0, 13.0
WOOD_KG_M3, PLY_KG_M3 = 450.0, 600.0


@dataclass(frozen=True, slots=True)
class Section:
    """A batten's section as it lies: width level, depth upright. [mm]"""

    wide_mm: float
    deep_mm: float

    @property
    def modulus_mm3(self) -> float:
        """Section modulus against bending down. [mm3]"""
        return self.wide_mm * self.deep_mm**2 / 6

    @property
    def sides_mm(self) -> tuple[float, float]:
        """As it is sold, the thin side first. [mm]"""
        thin, wide = sorted((self.wide_mm, self.deep_mm))
        return thin, wide


@dataclass(frozen=True, slots=True)
class Build:
    """Walls of one weight: plywood, and battens by how far they stand out and how wide they are."""

    ply_mm: float
    batten: Section


@dataclass(frozen=True, slots=True)
class Screw:
    """A wood screw with a countersunk head."""

    name: str  #: its size in words
    wide_mm: float  #: of the thread outside
    long_mm: float

    @property
    def mass_kg(self) -> float:
        """As one of 4 x 40 of 4 g, by its size (common practice). [kg]"""
        return 0.004 * (self.wide_mm / 4.0) ** 2 * self.long_mm / 40.0


@dataclass(frozen=True, slots=True)
class Yard:
    """Wood as a yard sells it; the first of a row that bears is taken."""

    hand: Build  #: moved by hand
    light: Build  #: on a pallet, with little in it
    heavy: Build
    sills: tuple[Section, ...]  #: under the floor, two of them
    lid: tuple[Section, ...]  #: over the lid, as many as its plywood needs
    bearer: Section  #: under a pallet: a fork needs some 100 mm (common practice)
    foam_mm: tuple[float, ...]  #: thicknesses of foam, single sheets or two glued
    thin_foam_mm: float  #: the thinnest sheet, for blocks between packages only
    step_mm: float  #: crates, pads and boards are cut to whole steps
    screws: tuple[Screw, ...]  #: the shortest first
    skewed: Screw  #: driven aslant where none reaches through

    @property
    def loose_mm(self) -> float:
        """Thickness of the loose boards round a stack: the thinnest plywood that is kept. [mm]"""
        return self.hand.ply_mm

    @property
    def block_foam_mm(self) -> tuple[float, ...]:
        """Thicknesses from which blocks are cut."""
        return (self.thin_foam_mm, *self.foam_mm)

    def up(self, size_mm: float) -> float:
        """To the next step of a rule. [mm]

        >>> YARDS["metric"].up(96.2), YARDS["metric"].down(96.8), YARDS["metric"].up(96.0)
        (97.0, 96.0, 96.0)
        """
        return self.step_mm * math.ceil(size_mm / self.step_mm - 1e-6)

    def down(self, size_mm: float) -> float:
        """To the step before. [mm]"""
        return self.step_mm * math.floor(size_mm / self.step_mm + 1e-6)


def _sections(*sizes: tuple[float, float], unit_mm: float = 1.0) -> tuple[Section, ...]:
    return tuple(Section(wide * unit_mm, deep * unit_mm) for wide, deep in sizes)


_INCH_SILLS = (0.75, 1.5), (1.5, 1.5), (1.5, 2.5), (1.5, 3.5), (1.5, 5.5), (3.5, 5.5), (3.5, 7.25)
_INCH_LID = (1.5, 0.75), (2.5, 0.75), (1.5, 1.5), (1.5, 2.5), (1.5, 3.5), (1.5, 5.5)
_SCREWS = tuple(
    Screw(f"{wide} × {long} mm", float(wide), float(long))
    for wide, long in ((4, 20), (4, 25), (4, 30), (4, 40), (4, 50), (4, 60), (5, 80), (6, 100), (6, 120))
)
_INCH_WIDE_MM = {8: 4.17, 10: 4.83, 14: 6.15}  # numbers of wood screws by ASME B18.6.1 (recalled)
_INCH_SCREWS = tuple(
    Screw(f"No. {number} × {words} in", _INCH_WIDE_MM[number], long * INCH_MM)
    for number, words, long in (
        (8, "3/4", 0.75),
        (8, "1", 1.0),
        (8, "1 1/4", 1.25),
        (8, "1 1/2", 1.5),
        (8, "2", 2.0),
        (8, "2 1/2", 2.5),
        (10, "3", 3.0),
        (14, "4", 4.0),
        (14, "5", 5.0),
    )
)
YARDS: dict[Measure, Yard] = {  # common sizes, dressed; common practice
    "metric": Yard(
        Build(4.0, Section(18.0, 38.0)),
        Build(6.0, Section(20.0, 45.0)),
        Build(9.0, Section(25.0, 75.0)),
        _sections(
            (18, 38), (20, 45), (45, 45), (45, 70), (45, 95), (45, 120), (45, 145), (70, 145), (95, 195)
        ),
        _sections((38, 18), (45, 20), (70, 22), (45, 45), (45, 70), (45, 95), (45, 145)),
        Section(75.0, 100.0),
        (20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 75.0, 100.0, 125.0, 150.0),
        10.0,
        1.0,
        _SCREWS,
        _SCREWS[6],
    ),
    "us": Yard(
        Build(3 / 16 * INCH_MM, Section(0.75 * INCH_MM, 1.5 * INCH_MM)),
        Build(1 / 4 * INCH_MM, Section(0.75 * INCH_MM, 2.5 * INCH_MM)),
        Build(3 / 8 * INCH_MM, Section(0.75 * INCH_MM, 3.5 * INCH_MM)),
        _sections(*_INCH_SILLS, unit_mm=INCH_MM),
        _sections(*_INCH_LID, unit_mm=INCH_MM),
        Section(3.5 * INCH_MM, 3.5 * INCH_MM),
        tuple(thick * INCH_MM for thick in (0.75, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0)),
        3 / 8 * INCH_MM,
        INCH_MM / 16,
        _INCH_SCREWS,
        _INCH_SCREWS[6],
    ),
}


@dataclass(frozen=True, slots=True)
class Board:
    """Pieces of one size to cut."""

    name: str
    stuff: Stuff
    long_mm: float
    wide_mm: float
    thick_mm: float
    count: int

    def mass_kg(self, foam_kg_m3: float = 0.0) -> float:
        """Of all of them; of foam and card by the density that is handed over. [kg]"""
        density = {"softwood": WOOD_KG_M3, "plywood": PLY_KG_M3}.get(self.stuff, foam_kg_m3)
        return self.count * self.long_mm * self.wide_mm * self.thick_mm * 1e-9 * density


def bending_mpa(moment_n_mm: float, section: Section) -> float:
    """Stress at a batten's edge. [MPa]"""
    return moment_n_mm / section.modulus_mm3


def ply_mpa(pressure_mpa: float, span_mm: float, thick_mm: float) -> float:
    """Stress in a strip of sheet between two battens. [MPa]

    >>> round(ply_mpa(0.01, 240.0, 6.0), 1)
    12.0
    """
    return pressure_mpa * span_mm**2 / 8 / (thick_mm**2 / 6)


def ply_span_mm(pressure_mpa: float, thick_mm: float) -> float:
    """How far apart battens may lie under it. [mm]"""
    return float((PLY_MPA * 8 * thick_mm**2 / 6 / pressure_mpa) ** 0.5)
