"""The bead torn open at its edge: suction pulls it whole, and the rail's seat turns under it at once.

Suction spreads q b/2 over the bite. A seat that turns by a small angle stretches the bead's edge by the
angle times half the bite, over the glue line, and pulls there by E times that. Both pull at one edge, so
their shares of the design stress add up:

    q b / (2 bite) / design  +  E (bite / 2) tan(turn) / glue line / design  <=  1

E is 1.0 MPa, three times the shear modulus of the elastic bead (space/conditions.py, recalled). The turn is
that of the suction alone, on the elastic bead, own weight not counted. The pane's own edge slopes the same
way as the seat turns in suction, so the bead sees their difference; the slope is not counted. The books of
record ask for the first share only: the sum is the shop's own reckoning, held against their design stress.

A bead is chosen before its rail is, so it is drawn wide enough for a turn of 2.5 degrees besides the suction;
rails that turn farther may fail, and the next one is tried.
"""

from __future__ import annotations

import math
from functools import lru_cache

from panewright.check import Check
from panewright.glass.pane import Pane
from panewright.seal.joint import MOST_RATIO
from panewright.seal.sealant import Bead, Sealant
from panewright.structure.loads import Loads
from panewright.structure.rails.lasting import gust_bound
from panewright.structure.space.bounds import SideFigures
from panewright.structure.space.conditions import SILICONE_SHEAR_PA
from panewright.structure.space.space_frame import Side

TURN_DEG = 2.5  #: half of what a seat may turn, left room for where a bead is chosen; no source
MOST_BITE_MM = 40  #: wider than any seat of the shelf
YOUNG_PA = 3 * SILICONE_SHEAR_PA  #: rubber keeps its volume


def turn_pull_pa(bead: Bead, turn_deg: float) -> float:
    """Tension at the edge of a bead whose seat turns. [Pa]

    >>> from panewright.seal.sealant import Sealant
    >>> bead = Bead(Sealant("silicone", 138e3, 7e3, 0.25, 300, True), 8, 6, 5)
    >>> round(turn_pull_pa(bead, 3.0))
    34589
    """
    return YOUNG_PA * math.tan(math.radians(turn_deg)) * bead.bite_mm / 2 / bead.glue_line_mm


def peel_checks(side: Side, pane: Pane, bead: Bead, loads: Loads, per_pa: SideFigures) -> tuple[Check, ...]:
    """Suction and turn together; nothing where the bead is not structural, which is told elsewhere."""
    if not _covered(bead):
        return ()
    source = "ASTM C1401" if loads.family == "ASCE" else "ETAG 002"
    return (
        Check(
            f"bead peeled open along the {side} rail",
            peel_share(pane, bead, loads, per_pa),
            1.0,
            "-",
            f"shop's own reckoning: suction and turn of the seat together; design stress of {source}",
            "Draw a wider bead on a thicker glue line, or take a rail with a thicker wall or a closed one.",
            "frame",
        ),
    )


def peel_share(pane: Pane, bead: Bead, loads: Loads, per_pa: SideFigures) -> float:
    """Both pulls at the edge over the design stress. [-]"""
    pulled = loads.suction_pa * pane.short_mm / (2 * bead.bite_mm)
    turned = turn_pull_pa(bead, gust_bound(per_pa, bead).twist_deg * loads.suction_pa)
    return (pulled + turned) / bead.sealant.design_pa


@lru_cache(maxsize=256)
def bite_for_turn_mm(sealant: Sealant, suction_bite_mm: float, glue_line_mm: float) -> float:
    """The least bite of whole millimetres that suction and the allowance for a turn leave whole. [mm]

    A wider bead bears suction better, and turns worse until its glue line grows with it; where none bears
    both, the one that comes nearest.

    >>> silicone = Sealant("silicone", 138e3, 7e3, 0.25, 300, True)
    >>> bite_for_turn_mm(silicone, 8.05, 6.0), bite_for_turn_mm(silicone, 2.0, 6.0)
    (12.0, 3.0)
    """
    bites = range(math.ceil(suction_bite_mm - 1e-9), MOST_BITE_MM + 1) if sealant.structural else ()

    turned = _turned(sealant, glue_line_mm) if bites else ()
    able = {bite: max(1.0, suction_bite_mm / bite + turned[bite - 1]) for bite in bites if bite > 0}
    return float(min(able, key=lambda bite: (able[bite], bite))) if able else suction_bite_mm


@lru_cache(maxsize=64)
def _turned(sealant: Sealant, glue_line_mm: float) -> tuple[float, ...]:
    """What the allowance for a turn takes of the design stress, for each bite from 1 mm. [-]"""

    def pull(bite: int) -> float:
        bead = Bead(sealant, float(bite), max(glue_line_mm, math.ceil(bite / MOST_RATIO)), 0.0)
        return turn_pull_pa(bead, TURN_DEG) / sealant.design_pa

    return tuple(pull(bite) for bite in range(1, MOST_BITE_MM + 1))


def _covered(bead: Bead) -> bool:
    return bead.sealant.structural and bead.sealant.design_pa > 0
