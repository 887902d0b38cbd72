"""Any of the fasteners that join two walls: one question for shear, one for pull, one for its edge.

[M] Aluminum Design Manual J.3 to J.5: no hole nearer to an edge than 1.5 diameters (recalled).
[E] EN 1999-1-1 table 8.2: 1.2 hole diameters for bolts; EN 1999-1-4: 2 diameters for blind rivets
    (recalled); 3 along the load for tapping screws, as EN 1993-1-3 table 8.2 (read).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from panewright.frame.joining import rivet, screw, tapping
from panewright.frame.joining.rivet import Rivet
from panewright.frame.joining.screw import Screw, metric_screw, unified_screw
from panewright.frame.joining.tapping import TappingScrew
from panewright.frame.joining.wall import Wall
from panewright.frame.metals.aluminium import Family

Fastener: TypeAlias = Screw | TappingScrew | Rivet

#: what an order may join its corners with; holes ISO 273 medium, washers ISO 7089 (recalled)
FASTENERS: dict[str, Fastener] = {
    "screw M4": metric_screw(4.0, 0.7, 4.5, 9.0),
    "screw M5": metric_screw(5.0, 0.8, 5.5, 10.0),
    "screw M6": metric_screw(6.0, 1.0, 6.6, 12.0),
    "screw 10-24": unified_screw("screw #10-24 stainless", 0.190, 24, 5.2),
    # root area read in a table of stainless spaced-thread screws
    "tapping screw 5.5": TappingScrew("tapping screw 5.5 mm stainless", 5.5, 8.42, 5.9, 11.0),
    "rivet 4.8 aluminium": Rivet("aluminium", 4.8),
    "rivet 4.8 stainless": Rivet("stainless", 4.8),
}


@dataclass(frozen=True, slots=True)
class Grip:
    """The two walls a fastener joins: the one under its head, and the far one."""

    near: Wall
    far: Wall
    edge_mm: float  #: from the middle of the hole to the nearest edge


def shear_limit_n(fastener: Fastener, grip: Grip, family: Family) -> float | None:
    """Least of the fastener's shear and what its walls bear; None where the rule is not for its size. [N]"""
    match fastener:
        case Screw():
            walls = (
                screw.wall_bearing_n(fastener, one, grip.edge_mm, family) for one in (grip.near, grip.far)
            )
            return min(screw.shear_n(fastener, family), *walls)
        case TappingScrew():
            if not tapping.within_rule(fastener, family):
                return None
            held = tapping.walls_n(fastener, grip.near, grip.far, grip.edge_mm, family)
            return min(tapping.shear_n(fastener, family), held)
    held = rivet.walls_n(fastener, grip.near, grip.far, grip.edge_mm, family)
    return min(rivet.shear_n(fastener, family), held)


def pull_limit_n(fastener: Fastener, grip: Grip, family: Family) -> float | None:
    """Pull along the fastener that it and its walls bear; None where the family has no rule. [N]"""
    match fastener:
        case Screw():
            return min(screw.tension_n(fastener, family), screw.head_n(fastener, grip.near, family))
        case TappingScrew():
            return tapping.pull_n(fastener, grip.near, grip.far, family)
    return rivet.pull_n(fastener, family)


def least_edge_mm(fastener: Fastener, family: Family) -> float:
    """Nearest that a hole's middle may be to an edge. [mm]  [M], [E]

    >>> least_edge_mm(FASTENERS["screw M5"], "ASCE"), round(least_edge_mm(FASTENERS["screw M5"], "EN"), 2)
    (7.5, 6.6)
    """
    if family == "ASCE":
        return 1.5 * fastener.diameter_mm
    match fastener:
        case Screw():
            return 1.2 * fastener.hole_mm
        case TappingScrew():
            return 3.0 * fastener.diameter_mm
    return 2.0 * fastener.diameter_mm


def rule_source(fastener: Fastener, family: Family) -> str:
    """Where the limits of a fastener come from."""
    match fastener:
        case Screw():
            return "Aluminum Design Manual J.3, J.5" if family == "ASCE" else "EN 1999-1-1 table 8.5"
        case TappingScrew():
            return "Aluminum Design Manual J.5" if family == "ASCE" else "EN 1999-1-4 clause 8.3"
    return "Aluminum Design Manual J.4" if family == "ASCE" else "EN 1999-1-4 clause 8.2"
