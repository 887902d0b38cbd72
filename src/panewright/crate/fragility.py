"""How much of a shock a panel bears, in multiples of its own weight.

Two figures, and the smaller one counts. One is the class of things like it [H]: nobody drops panels to find
out. The other is the pane's own strength: stopped within a short way, the pane and what lies on it press on
the pane itself like a wind,

    pressure = mass of a square metre x gravity x G

A fall on the panel's edge loads the pane in its own plane, where it is stiff: there the class alone counts.

[H] Fragility classes of package-cushioning handbooks, such as MIL-HDBK-304: 15 to 25 and 25 to 40 G (read
    in a case maker's table), the others recalled. The low end of each class is taken.
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.units import GRAVITY_M_S2

CLASSES_G = {
    "extremely fragile": 15.0,
    "very delicate": 25.0,
    "delicate": 40.0,
    "moderately delicate": 60.0,
    "moderately rugged": 85.0,
    "rugged": 115.0,
}  #: low end of each class [H]


@dataclass(frozen=True, slots=True)
class Fragility:
    """What a panel bears."""

    named: str  #: its class
    class_g: float
    pane_g: float | None  #: of the pane across its face; None where no rule book covers it

    @property
    def face_g(self) -> float:
        """On its face. [g]"""
        return self.class_g if self.pane_g is None else min(self.class_g, self.pane_g)

    @property
    def edge_g(self) -> float:
        """On its edge. [g]"""
        return self.class_g


def fragility(named: str, pressure_pa: float | None, mass_kg_m2: float) -> Fragility:
    """By class, and by the pressure that the pane bears for a moment.

    >>> round(fragility("delicate", 6000.0, 18.0).face_g, 1)
    34.0
    """
    return Fragility(named, CLASSES_G[named], pressure_pa and pane_g(pressure_pa, mass_kg_m2))


def pane_g(pressure_pa: float, mass_kg_m2: float) -> float:
    """The shock at which a pane's own mass presses it with this pressure. [g]

    >>> round(pane_g(9806.65, 20.0), 1)
    50.0
    """
    if not (pressure_pa > 0 and mass_kg_m2 > 0):
        raise ValueError(f"pressure and mass are above 0, got {pressure_pa} Pa, {mass_kg_m2} kg/m2")
    return pressure_pa / (mass_kg_m2 * GRAVITY_M_S2)
