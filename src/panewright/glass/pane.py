"""A rectangular pane and what it is made of."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Material = Literal["glass", "acrylic", "polycarbonate"]
Treatment = Literal["annealed", "heat-strengthened", "tempered", "none"]
Surface = Literal["plain", "patterned"]
Interlayer = Literal["pvb", "ionoplast", "eva"]


@dataclass(frozen=True, slots=True)
class Plies:
    """Two plies of glass bound by an interlayer: the outer one is the sunny side."""

    outer_mm: float  #: thinnest it may be, as all that is proved
    inner_mm: float
    between_mm: float  #: thickness of the interlayer
    interlayer: Interlayer

    def __post_init__(self) -> None:
        if not min(self.outer_mm, self.inner_mm, self.between_mm) > 0:
            raise ValueError(f"plies and what binds them have a thickness each, got {self}")


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
    plies: Plies | None = None  #: of laminated glass; `thickness_mm` is then the glass of both

    def __post_init__(self) -> None:
        if not 0 < self.thickness_mm <= self.nominal_mm:
            raise ValueError(f"a sheet is no thicker than its nominal thickness, got {self}")
        if not 0 < self.solar_transmittance <= 1:
            raise ValueError(f"a sheet lets through more than nothing and at most all light, got {self}")
        if self.plies and self.material != "glass":
            raise ValueError(f"only glass is laminated here, got {self}")


@dataclass(frozen=True, slots=True)
class Pane:
    """A piece of sheet; the long side is never shorter than the short side."""

    long_mm: float
    short_mm: float
    sheet: Sheet

    def __post_init__(self) -> None:
        if not 0 < self.short_mm <= self.long_mm:
            raise ValueError(f"a pane has a long and a short side, both positive, got {self}")

    def __hash__(self) -> int:
        """Of its sizes and its sheet's name: they tell nearly all panes apart."""
        return hash((self.long_mm, self.short_mm, self.sheet.thickness_mm, self.sheet.name))
