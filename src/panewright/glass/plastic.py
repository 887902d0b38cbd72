"""Acrylic and polycarbonate sheet: how they bend, creep and craze. No glass rule book covers them.

What is reckoned here is the shop's own: deflection by the same plate as glass with a modulus that falls
with the length of the load, and stress against what crazes the sheet in the long run.

[A] acrylic: E 3.24 GPa (US distributor, ASTM tests, seen); 1.2 GPa after ten years (handbooks, recalled);
    1500 psi for cast and 750 psi for extruded sheet under lasting load (distributor's design-stress note,
    seen).
[P] polycarbonate: E 2.3 GPa, nu 0.38 (sheet data of three suppliers, seen); 1.2 GPa after ten years and
    2000 psi under lasting load (recalled).
[S] heat it bears in service: cast acrylic 80, extruded 70 degC (a sheet maker's page on heat, seen);
    polycarbonate 120 degC (recalled).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log
from typing import Literal

from panewright.glass.plate.bending import Elastic

PlasticName = Literal["acrylic", "polycarbonate"]
SHORT_S = 100.0  #: a tensile test lasts about this long
TEN_YEARS_S = 10 * 365.25 * 86400.0
LASTING_S = 86400.0  #: loads from a day on count as lasting


@dataclass(frozen=True, slots=True)
class Plastic:
    """What a plastic sheet is made of."""

    young_pa: float
    ten_year_pa: float  #: apparent modulus after ten years of load, cool and lightly stressed
    poisson: float
    lasting_mpa: float  #: stress that does not craze it under lasting load
    source: str
    service_c: float  #: hottest that its maker lets it be in use [S]


_ACRYLIC = (
    "shop's own reckoning: acrylic distributor's design-stress note; creep modulus from handbooks, recalled"
)
_POLYCARBONATE = "shop's own reckoning: suppliers' sheet data; creep modulus and lasting stress recalled"
CAST_ACRYLIC = Plastic(3.24e9, 1.2e9, 0.37, 10.34, _ACRYLIC, 80.0)
EXTRUDED_ACRYLIC = Plastic(3.24e9, 1.2e9, 0.37, 5.17, _ACRYLIC, 70.0)
POLYCARBONATE = Plastic(2.3e9, 1.2e9, 0.38, 13.8, _POLYCARBONATE, 120.0)


def plastic(material: PlasticName, sheet_name: str = "") -> Plastic:
    """Properties of a sheet; acrylic is taken as extruded, the weaker kind, unless its name says cast."""
    if material == "polycarbonate":
        return POLYCARBONATE
    return CAST_ACRYLIC if "cast" in sheet_name.lower() else EXTRUDED_ACRYLIC


def creep_modulus_pa(kind: Plastic, duration_s: float) -> float:
    """Apparent modulus after a load has lasted so long: a power law through both known points. [Pa]

    >>> round(creep_modulus_pa(CAST_ACRYLIC, 30 * 86400.0) / 1e9, 2)
    1.65
    """
    exponent = log(kind.ten_year_pa / kind.young_pa) / log(TEN_YEARS_S / SHORT_S)
    return float(kind.young_pa * (max(duration_s, SHORT_S) / SHORT_S) ** exponent)


def softened(kind: Plastic, duration_s: float) -> Elastic:
    """What bends after a load has lasted so long."""
    return Elastic(creep_modulus_pa(kind, duration_s), kind.poisson)
