"""A post: a round or square tube of metal, or square timber, with the section that resists wind.

[R] Roark's Formulas for Stress and Strain, chapter 10 (recalled): torsion of one closed cell 2 Am t
    (Bredt), of a solid square 0.208 a^3.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from panewright.frame.metals.metal import Metal, density_kg_m3
from panewright.frame.support.timber import Species, timber

Shape = Literal["round", "square", "timber"]


@dataclass(frozen=True, slots=True)
class Post:
    """A post as sold. A timber has no wall and a species, a tube has a wall and a metal."""

    name: str
    shape: Shape
    outer_mm: float  #: diameter or side
    wall_mm: float  #: 0 of timber
    length_mm: float
    metal: Metal | None = None
    species: Species | None = None

    def __post_init__(self) -> None:
        if min(self.outer_mm, self.length_mm) <= 0 or (self.shape == "timber") == (self.wall_mm > 0):
            raise ValueError(f"a post is a tube with a wall or timber without one, got {self}")
        if (self.shape == "timber") == (self.species is None) or (self.metal is None) == (
            self.species is None
        ):
            raise ValueError(f"a post is of one metal or one timber, got {self}")
        if 2 * self.wall_mm >= self.outer_mm:
            raise ValueError(f"a post's wall is thinner than half its outside, got {self}")

    @property
    def inner_mm(self) -> float:
        """Inside of the tube; 0 of timber. [mm]"""
        return self.outer_mm - 2 * self.wall_mm if self.wall_mm else 0.0

    @property
    def area_mm2(self) -> float:
        """Of the section. [mm2]"""
        whole = self.outer_mm**2 - self.inner_mm**2
        return math.pi / 4 * whole if self.shape == "round" else whole

    @property
    def inertia_mm4(self) -> float:
        """About any axis through the middle. [mm4]

        >>> round(Post("p", "round", 60.3, 3.2, 6000, metal="S235").inertia_mm4)
        234682
        """
        whole = self.outer_mm**4 - self.inner_mm**4
        return math.pi / 64 * whole if self.shape == "round" else whole / 12

    @property
    def modulus_mm3(self) -> float:
        """Elastic section. [mm3]"""
        return self.inertia_mm4 / (self.outer_mm / 2)

    @property
    def torsion_mm3(self) -> float:
        """Torque over the largest shear stress. [mm3]  [R]"""
        if self.shape == "timber":
            return 0.208 * self.outer_mm**3
        middle = self.outer_mm - self.wall_mm
        enclosed = math.pi / 4 * middle**2 if self.shape == "round" else middle**2
        return 2 * enclosed * self.wall_mm

    @property
    def shear_mm2(self) -> float:
        """Shear force over the largest stress it makes: half of a tube, 2/3 of timber. [mm2]"""
        return 2 / 3 * self.area_mm2 if self.shape == "timber" else self.area_mm2 / 2

    @property
    def kg_m(self) -> float:
        """Mass of a metre. [kg/m]"""
        density = timber(self.species).density_kg_m3 if self.species else 0.0
        density = density_kg_m3(self.metal) if self.metal else density
        return self.area_mm2 * 1e-6 * density
