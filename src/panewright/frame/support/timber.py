"""Timber that a panel is screwed to or stands on: what each family of codes says of a species or class.

American books go by species and grade, European ones by strength class; a timber belongs to one family and
the other has no figures for it.

[N] NDS 2018 table 12.3.3A: specific gravities (read in the heads of table 12K). NDS Supplement table 4D,
    posts and timbers No. 2, wet or dry: Fb, Fv, E; Fc perpendicular, wet 0.67 (recalled). 4 x 4 pieces are
    graded higher.
[E] EN 338: characteristic bending, shear, density, mean E, fc,90 (C14 to C24 of the 2003 edition read in a
    public table; shear of the 2009 edition recalled).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Species = Literal[
    "C16", "C18", "C24", "C30", "douglas fir-larch", "southern pine", "hem-fir", "spruce-pine-fir"
]
Family = Literal["ASCE", "EN"]

PSI_MPA = 0.006894757293168361


@dataclass(frozen=True, slots=True)
class Timber:
    """One timber. Strengths in MPa, ASCE reference design values, EN characteristic ones."""

    name: Species
    family: Family
    gravity: float  #: specific gravity, oven dry [N]; 0 where the family goes by density
    density_kg_m3: float  #: characteristic [E]; of seasoned wood for ASCE, for weights only
    bending_mpa: float
    shear_mpa: float
    across_mpa: float  #: compression across the grain
    young_mpa: float


def _american(name: Species, gravity: float, fb: float, fv: float, fc: float, e_ksi: float) -> Timber:
    """From psi and ksi as printed."""
    density = 1000 * gravity * 1.15  # 15 % moisture; common practice
    return Timber(
        name, "ASCE", gravity, density, fb * PSI_MPA, fv * PSI_MPA, fc * PSI_MPA, e_ksi * 1000 * PSI_MPA
    )


_TIMBERS = {
    one.name: one
    for one in (
        Timber("C16", "EN", 0.0, 310, 16.0, 3.2, 2.2, 8000),
        Timber("C18", "EN", 0.0, 320, 18.0, 3.4, 2.2, 9000),
        Timber("C24", "EN", 0.0, 350, 24.0, 4.0, 2.5, 11000),
        Timber("C30", "EN", 0.0, 380, 30.0, 4.0, 2.7, 12000),
        _american("douglas fir-larch", 0.50, 750, 170, 625, 1300),
        _american("southern pine", 0.55, 850, 165, 375, 1200),
        _american("hem-fir", 0.43, 575, 140, 405, 1100),
        _american("spruce-pine-fir", 0.42, 500, 125, 425, 1000),
    )
}
NAMES: tuple[Species, ...] = tuple(_TIMBERS)
USUAL: dict[Family, Species] = {"EN": "C24", "ASCE": "spruce-pine-fir"}


def timber(name: Species) -> Timber:
    """The figures of a timber."""
    return _TIMBERS[name]
