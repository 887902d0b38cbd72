"""A two-part clear silicone, as its data sheet says, and how it works at the heat of the shop.

The sheet tells pot life and full cure at room heat, and a short cure in an oven. The two cures give the
energy of the reaction (`arrhenius.py`); pot life, gel and handling are taken to follow the same reaction.
A cold silicone is also thicker, by the same law with the far smaller energy of flow: 14.2 and 16.0 kJ/mol
from 1180 and 3730, 410 and 1500 mPa s at 25 and -25 degC [M]; 15 is taken.

Where a sheet is silent: it gels at three pot lives (the pot life is mostly the time in which the viscosity
doubles), and bears handling at a third of the full cure. Both common practice, no source.
Density 0.97 to 1.05 g/ml, pot life half an hour to two hours, 1 to 5 Pa s: data sheets, from memory. The cure
of 24 h at 23 degC and 20 min at 100 degC is that of a clear one-to-one silicone, from memory.

[M] Monteiro et al., Influence of the temperature on the viscosity of different types of silicone, J. of
    Plastination (abstract seen). A third, thin silicone in it has 24 kJ/mol.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.check import Check
from panewright.enclosure.arrhenius import Timed, energy_j_mol, slower

Cure = Literal["platinum", "tin"]
GEL_POT_LIVES = 3.0
HANDLE_SHARE = 1 / 3  #: of the full cure
BELOW_SHEET_K = 13.0  #: so far under the sheet's room heat its figures are still stretched; the shop's rule
FLOW_J_MOL = 15e3  #: energy of flow of silicones as thick as those poured [M]
HOTTEST_SHOP_C = 40.0  #: nobody pours at more; common practice
_SOURCE = "the data sheet's two heats, stretched 13 K down: the shop's own rule"


@dataclass(frozen=True, slots=True)
class Silicone:
    """What its data sheet says."""

    name: str = "clear silicone"
    density_kg_m3: float = 1030.0
    pot_life_min: float = 60.0  #: at `sheet_c`
    parts_a: float = 1.0  #: of A to one of B, by mass
    viscosity_pa_s: float = 1.5  #: mixed, at `sheet_c`
    full_h: float = 24.0  #: at `sheet_c`
    sheet_c: float = 23.0
    oven_min: float = 20.0  #: full cure at `oven_c`
    oven_c: float = 100.0
    cures_by: Cure = "platinum"

    def __post_init__(self) -> None:
        if not min(self.density_kg_m3, self.pot_life_min, self.parts_a, self.viscosity_pa_s) > 0:
            raise ValueError(f"a silicone has mass, a pot life, two parts and a viscosity, got {self}")
        if not (self.full_h * 60 > self.oven_min > 0 and self.oven_c > self.sheet_c):
            raise ValueError(f"an oven cures hotter and faster than a room, got {self}")

    @property
    def energy_j_mol(self) -> float:
        """Activation energy of the cure. [J/mol]"""
        return energy_j_mol(Timed(60 * self.full_h, self.sheet_c), Timed(self.oven_min, self.oven_c))


@dataclass(frozen=True, slots=True)
class AtWork:
    """The same silicone at the heat of the shop."""

    at_c: float
    pot_life_min: float
    gel_h: float  #: no longer flows
    handle_h: float  #: may be turned and carried
    full_h: float
    viscosity_pa_s: float  #: just mixed


def at_work(silicone: Silicone, shop_c: float) -> AtWork:
    """Its times and how thick it is at the heat of the shop.

    >>> cold = at_work(Silicone(), 15.0)
    >>> round(cold.pot_life_min), round(cold.gel_h, 1), round(cold.handle_h), round(cold.full_h)
    (107, 5.3, 14, 43)
    >>> round(cold.viscosity_pa_s, 2)
    1.78
    """
    factor = slower(silicone.energy_j_mol, silicone.sheet_c, shop_c)
    pot_min, full_h = factor * silicone.pot_life_min, factor * silicone.full_h
    thick = silicone.viscosity_pa_s * slower(FLOW_J_MOL, silicone.sheet_c, shop_c)
    return AtWork(shop_c, pot_min, GEL_POT_LIVES * pot_min / 60, HANDLE_SHARE * full_h, full_h, thick)


def shop_checks(silicone: Silicone, shop_c: float) -> tuple[Check, Check]:
    """The shop is neither colder nor hotter than the sheet's figures can tell."""
    cold = Check(
        rule="shop warm enough for the silicone's figures",
        demand=silicone.sheet_c - BELOW_SHEET_K,
        limit=shop_c,
        unit="degC",
        source=_SOURCE,
        cure="Warm the shop, the silicone and the pane before pouring; a cold cure may never end.",
        room="enclosure",
    )
    hot = Check(
        rule="shop cool enough to pour in",
        demand=shop_c,
        limit=HOTTEST_SHOP_C,
        unit="degC",
        source="common practice, no source",
        cure="Pour in the morning, or cool both parts first.",
        room="enclosure",
    )
    return cold, hot
