"""How far a rail moves where part of its load stays: the bead holds a gust, and gives way under snow.

Structural silicone is elastic in a gust. Under what stays for weeks it relaxes, how far no maker tells; so
what own weight and snow do is told with the pane's hold gone ('free', the bound on the safe side), what wind
does on the elastic bead. In a combination each part acts by its own, and their movements add up.
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.seal.sealant import Bead
from panewright.structure.loads import Case, Loads
from panewright.structure.space.bounds import Bound, SideFigures


@dataclass(frozen=True, slots=True)
class Moved:
    """The most of one rail."""

    sag_mm: float
    twist_deg: float


def gust_bound(figures: SideFigures, bead: Bead) -> Bound:
    """The figures that hold in a gust: the elastic bead's, if it is structural silicone, free otherwise."""
    return figures.bead if bead.sealant.structural else figures.free


def most_moved(per_pa: SideFigures, loads: Loads, bead: Bead) -> Moved:
    """The most of all combinations at the level of movement, each part of a load by how long it stays.

    Loads without combinations are taken as gusts.
    """
    gust, stays = gust_bound(per_pa, bead), per_pa.free
    whole = max(loads.down_pa, loads.up_pa)
    found = [(gust.sag_mm * whole, gust.twist_deg * whole)]
    for case in loads.cases:
        if not case.factored:
            lasts, blows = parted_pa(case)
            found.append(
                (
                    max(gust.sag_mm, stays.sag_mm) * lasts + gust.sag_mm * blows,
                    max(gust.twist_deg, stays.twist_deg) * lasts + gust.twist_deg * blows,
                )
            )
    return Moved(*(max(figures) for figures in zip(*found, strict=True)))


def parted_pa(case: Case) -> tuple[float, float]:
    """What of a combination stays, and what is a gust. [Pa]

    >>> parted_pa(Case("all", 900, 3.0, False, (), (("own weight", 200), ("snow", 300), ("wind", 400))))
    (500, 400)
    """
    stays = sum(pressure for kind, pressure in case.parts if kind != "wind")
    return stays, abs(case.pressure_pa) - stays
