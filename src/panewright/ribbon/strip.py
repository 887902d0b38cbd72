"""Tabbing ribbon and bus ribbon as sold: copper strip, dipped in solder."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Strip:
    """A coated copper strip; width and thickness are those of the copper."""

    name: str
    width_mm: float
    thickness_mm: float
    coat_mm: float = 0.02  #: solder on every face
    coat_ohm_m: float = 1.5e-7  #: resistivity of the solder
    copper_ohm_m: float = 1.724e-8  #: annealed copper at 20 degC, IACS
    #: where the soft copper yields; low-yield ribbon is classed by 69 to 103 MPa, and sold as under 100 or
    #: 110 MPa (public specifications, seen)
    yield_mpa: float = 80.0

    def __post_init__(self) -> None:
        figures = (self.width_mm, self.thickness_mm, self.coat_ohm_m, self.copper_ohm_m, self.yield_mpa)
        if min(figures) <= 0 or self.coat_mm < 0:
            raise ValueError(f"a strip has positive sizes, resistivities and yield, got {self}")
