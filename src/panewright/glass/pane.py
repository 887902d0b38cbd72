"""A rectangular pane and what it is made of."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Material = Literal["glass", "acrylic", "polycarbonate"]
Treatment = Literal["annealed", "heat-strengthened", "tempered", "none"]
Surface = Literal["plain", "patterned"]


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet material in one nominal thickness, as sold."""

    name: str
    material: Material
    treatment: Treatment  #: 'none' for plastics
    surface: Surface
    nominal_mm: float
    thickness_mm: float  #: the thinnest it may be under its product standard; used in every proof
    density_kg_m3: float
    expansion_per_k: float
    solar_transmittance: float  #: at normal incidence, whole sheet, solar weighted

    def __post_init__(self) -> None:
        if not 0 < self.thickness_mm <= self.nominal_mm:
            raise ValueError(f"a sheet is no thicker than its nominal thickness, got {self}")
        if not 0 < self.solar_transmittance <= 1:
            raise ValueError(f"a sheet lets through more than nothing and at most all light, got {self}")


@dataclass(frozen=True, slots=True)
class Pane:
    """A piece of sheet; the long side is never shorter than the short side."""

    long_mm: float
    short_mm: float
    sheet: Sheet

    def __post_init__(self) -> None:
        if not 0 < self.short_mm <= self.long_mm:
            raise ValueError(f"a pane has a long and a short side, both positive, got {self}")
