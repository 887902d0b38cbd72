"""The frame on one of its corners: screwed corners are hinges, so the bead alone keeps it square.

The frame may slide on the pane, turn on it, and lean to a rhomboid; the glue line is sheared by k = G
bite / t on each length of bead, alike along and across it. Its work is least where, with the weight W at
the corner of an a by b pane and d its diagonal,

    slide  W / (2 k (a + b)) along the diagonal
    lean   2 W a b / (d k J (1 - r^2)),  J = (a^3 + b^3)/6 + a b (a + b)/2
    turn   -r lean/2,                    r = ((a^3 - b^3)/6 + a b (a - b)/2) / J
    slip at the corner = slide (a, b)/d + lean/4 (b (1 + r), a (1 - r))

The stress, k over the bite times the slip, does not depend on how stiff the silicone is; the slip itself
does, and is taken for the softest. The filled gap, and corners that are stiff after all, help; they are
not counted.

Corners that are welded lean with the frame, and get 6 E Iy lean / (a + b) for it; counting both so is
safe.

[G] E 1.0 to 2.5 MPa of structural silicone, data sheets (recalled); G = E/3.
[S] ASTM C1401 gives one design stress, 20 psi, for pull and shear (recalled). European approvals give
    shear about three quarters of what they give pull (recalled).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.check import Check
from panewright.climate.site import Family
from panewright.frame.metals.aluminium import young_pa
from panewright.frame.rail import Rail
from panewright.frame.shape.section import section
from panewright.glass.pane import Pane
from panewright.seal.sealant import Bead
from panewright.structure.corners.force import SNATCH
from panewright.units import GRAVITY_M_S2

SOFT_MPA = 1.0 / 3.0  #: shear stiffness of the softest structural silicone [G]
SHEAR_SHARE: dict[Family, float] = {"ASCE": 1.0, "EN": 0.75}  #: of the design stress in pull [S]
_CURE = "Draw a wider bead; carry the panel by both long rails and never stand it on a corner."


@dataclass(frozen=True, slots=True)
class Rack:
    """What a frame on one corner does to its bead."""

    bead_mpa: float  #: shear in the bead at the corner
    slip_mm: float  #: of the frame on the pane, there
    lean: float  #: of the frame out of square [rad]


def rack(pane: Pane, bead: Bead, weight_n: float) -> Rack:
    """A pane and frame of this weight standing on one corner.

    >>> from panewright.glass.pane import Sheet
    >>> from panewright.seal.sealant import Sealant
    >>> sheet = Sheet("4", "glass", "tempered", "plain", 4, 3.8, 2500, 9e-6, 0.9)
    >>> silicone = Sealant("silicone", 138e3, 7e3, 0.25, 300, structural=True)
    >>> round(rack(Pane(1000, 1000, sheet), Bead(silicone, 10, 6, 5), 200.0).bead_mpa, 4)
    0.0125
    """
    a, b = pane.long_mm, pane.short_mm
    d, second = math.hypot(a, b), (a**3 + b**3) / 6 + a * b * (a + b) / 2  # J
    r = ((a**3 - b**3) / 6 + a * b * (a - b) / 2) / second
    slide, lean = weight_n / (2 * (a + b)), 2 * weight_n * a * b / (d * second * (1 - r**2))  # for k = 1
    slip = math.hypot(slide * a / d + lean * b * (1 + r) / 4, slide * b / d + lean * a * (1 - r) / 4)
    stiffness = SOFT_MPA * bead.bite_mm / bead.glue_line_mm  # k [N/mm2]
    return Rack(slip / bead.bite_mm, slip / stiffness, lean / stiffness)


def stiff_moment_nmm(rail: Rail, pane: Pane, lean: float, family: Family) -> float:
    """Moment in a corner that may not turn, as the frame leans. [N mm]"""
    return 6 * young_pa(family) * 1e-6 * section(rail).iy_mm4 * lean / (pane.long_mm + pane.short_mm)


def judge_racking(pane: Pane, bead: Bead, mass_kg: float, family: Family) -> tuple[Check, Check]:
    """Stress and slip of the bead while the panel stands on one corner."""
    found = rack(pane, bead, mass_kg * GRAVITY_M_S2 * SNATCH)
    sealant = bead.sealant
    limit = SHEAR_SHARE[family] * sealant.design_pa * 1e-6 if sealant.structural else None
    holds = "ASTM C1401, one stress for pull and shear" if family == "ASCE" else "ETAG 002, 3/4 of the pull"
    most = bead.glue_line_mm * math.sqrt((1 + sealant.movement) ** 2 - 1)
    moves = "shear geometry, movement class of the sealant"
    return (
        Check(
            "bead sheared on one corner",
            found.bead_mpa,
            limit,
            "MPa",
            f"{holds}; weight twice",
            _CURE,
            "seal",
        ),
        Check("bead slip on one corner", found.slip_mm, most, "mm", f"{moves}; weight twice", _CURE, "seal"),
    )
