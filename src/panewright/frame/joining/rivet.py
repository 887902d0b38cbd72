"""A blind rivet: what its body bears, and the walls round it.

    shear      least load of its product standard [P], for aluminium no more than 38 d^2 in EN [T]
    bearing    min(2 D, e) t Ftu [M]; as a tapping screw's [T]
    tension    47 d^2 for aluminium [T]; the Aluminum Design Manual has rivets bear no tension [M]

[P] least shear and tensile loads by size: ISO 15977 (aluminium body, steel mandrel, class L), ISO 15983
    (stainless) (recalled; a maker's own figure may be higher).
[M] Aluminum Design Manual J.4: Omega 2.34 in shear, 1.95 in bearing, no tension (recalled).
[T] EN 1999-1-4 clause 8.2: 38 d^2 and 47 d^2 N, gamma_M3 1.25 (recalled).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.frame.joining.bolt import OMEGA_BOLT, bearing_n
from panewright.frame.joining.tapping import GAMMA_M3, thin_sheet_bearing_n
from panewright.frame.joining.wall import Wall
from panewright.frame.metals.aluminium import OMEGA_RUPTURE, Family

Body = Literal["aluminium", "stainless"]
#: (shear, tension) in N by diameter in mm [P]
LEAST_LOADS_N: dict[Body, dict[float, tuple[float, float]]] = {
    "aluminium": {3.2: (500.0, 670.0), 4.0: (850.0, 1020.0), 4.8: (1200.0, 1425.0)},
    "stainless": {3.2: (1900.0, 2500.0), 4.0: (2700.0, 3500.0), 4.8: (4000.0, 5000.0)},
}
_SLACK_MM = 0.1  # hole over rivet, [P]


@dataclass(frozen=True, slots=True)
class Rivet:
    """A blind rivet with a domed head, of a size that the product standards list."""

    body: Body
    diameter_mm: float

    def __post_init__(self) -> None:
        if self.diameter_mm not in LEAST_LOADS_N.get(self.body, {}):
            raise ValueError(f"a rivet of a listed body and size, got {self}")

    @property
    def name(self) -> str:
        """As the parts list writes it."""
        return f"blind rivet {self.diameter_mm:g} mm, {self.body}"

    @property
    def hole_mm(self) -> float:
        """To drill. [mm]"""
        return self.diameter_mm + _SLACK_MM


def shear_n(rivet: Rivet, family: Family) -> float:
    """Shear that the body may bear. [N]  [P], [M], [T]"""
    least, _ = LEAST_LOADS_N[rivet.body][rivet.diameter_mm]
    if family == "ASCE":
        return least / OMEGA_BOLT
    thin_sheet = 38.0 * rivet.diameter_mm**2 if rivet.body == "aluminium" else least
    return min(least, thin_sheet) / GAMMA_M3


def walls_n(rivet: Rivet, near: Wall, far: Wall, edge_mm: float, family: Family) -> float:
    """Push that the two walls bear. [N]  [M], [T]"""
    if family == "EN":
        return thin_sheet_bearing_n(rivet.diameter_mm, near, far)
    borne = (
        bearing_n(rivet.diameter_mm, wall.thickness_mm, wall.rupture_mpa, edge_mm) for wall in (near, far)
    )
    return min(borne) / OMEGA_RUPTURE


def pull_n(rivet: Rivet, family: Family) -> float | None:
    """Pull that the rivet may bear; None in the ASCE family, which gives it none. [N]  [M], [T]"""
    if family == "ASCE":
        return None
    _, least = LEAST_LOADS_N[rivet.body][rivet.diameter_mm]
    thin_sheet = 47.0 * rivet.diameter_mm**2 if rivet.body == "aluminium" else least
    return min(least, thin_sheet) / GAMMA_M3
