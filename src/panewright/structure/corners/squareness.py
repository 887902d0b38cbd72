"""How far pane and frame may be off in size and square, and what that takes out of the gap at one edge.

size     half of what a side may be too long, or a rail too short: the pane is set in the middle square
a rectangle whose diagonals differ by D leans by D d / (2 a b); turned to lie best it is off by a quarter
of the lean times its side, at the ends of each side: D d / (8 b) along the long ones

Four things that are off by chance and not together: the root of their squares (common practice).

[G] toughened glass up to 8 mm, EN 12150-1:2015 tables 2 and 3: sides within 2 mm up to 2 m, 3 mm up to 3
    m, 4 mm beyond; diagonals 4, 6 and 8 mm (recalled; that diagonals tell the square since 2015: read).
[F] processed float, EN 572-8: 1 mm up to 1.5 m, 1.5 mm up to 3 m, 2 mm beyond; diagonals twice that
    (recalled).
[A] heat-treated glass up to 1/4 in, ASTM C1048 and C1036: 1/16 in, square to 5/64 in (a glass maker's
    page, read).
[W] a chop saw with its stop: 0.5 mm; a frame squared by its diagonals: 1 mm; plastic sawn in the shop:
    1.5 mm, its diagonals 3 mm (common practice, no source).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.climate.site import Family
from panewright.glass.pane import Pane

SAW_MM = 0.5  #: a rail's length [W]
SQUARE_MM = 1.0  #: the frame's diagonals may differ by this [W]
_STEPS: dict[str, tuple[tuple[float, float, float], ...]] = {  # (side up to mm, side, diagonals)
    "tempered": ((2000, 2.0, 4.0), (3000, 3.0, 6.0), (math.inf, 4.0, 8.0)),
    "float": ((1500, 1.0, 2.0), (3000, 1.5, 3.0), (math.inf, 2.0, 4.0)),
    "ASCE": ((math.inf, 25.4 / 16, 25.4 * 5 / 64),),
    "plastic": ((math.inf, 1.5, 3.0),),
}


@dataclass(frozen=True, slots=True)
class Off:
    """How far a pane and its frame may be off."""

    side_mm: float  #: of the pane, either way
    diagonals_mm: float  #: of the pane, one against the other
    saw_mm: float = SAW_MM
    frame_diagonals_mm: float = SQUARE_MM


def off_by_standard(pane: Pane, family: Family) -> Off:
    """What the family's product standard lets the pane be off, and the shop's own saw. [G], [F], [A], [W]

    >>> from panewright.glass.pane import Sheet
    >>> sheet = Sheet("4", "glass", "tempered", "plain", 4, 3.8, 2500, 9e-6, 0.9)
    >>> off_by_standard(Pane(1600, 1000, sheet), "EN").side_mm
    2.0
    """
    _, side, diagonals = next(step for step in _STEPS[_kind(pane, family)] if pane.long_mm <= step[0])
    return Off(side, diagonals)


def _kind(pane: Pane, family: Family) -> str:
    if pane.sheet.material != "glass":
        return "plastic"
    if family == "ASCE":
        return "ASCE"
    return "float" if pane.sheet.treatment == "annealed" else "tempered"


def lean_mm(diagonals_mm: float, long_mm: float, short_mm: float) -> float:
    """How far an edge of a leaning rectangle is off at its ends, turned to lie best. [mm]

    >>> round(lean_mm(4.0, 1600, 1000), 3)
    0.943
    """
    return diagonals_mm * math.hypot(long_mm, short_mm) / (8 * short_mm)


def edge_tolerance_mm(pane: Pane, off: Off) -> float:
    """What size and square may take out of the gap at one edge. [mm]"""
    parts = (
        off.side_mm / 2,
        off.saw_mm / 2,
        lean_mm(off.diagonals_mm, pane.long_mm, pane.short_mm),
        lean_mm(off.frame_diagonals_mm, pane.long_mm, pane.short_mm),
    )
    return math.hypot(*parts)
