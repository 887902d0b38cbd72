"""What is not known of a frame, each with its bounds: the pane's hold, the corners, the brackets' pull.

The pane, rigid in its own plane, holds the seat sideways only through the bead. Not at all ('free') and
wholly ('held') are the bounds; between them the bead is an elastic line spring, its shear modulus times bite
over glue line. Twist about the bead's line stays free in all three.

A corner carries force whole, and turns about both lines in the frame's plane. About its upright line a clip
of thin legs, or screws through one leg, turn ('hinged'); a weld does not ('rigid'). A mitred corner with a
clip lies between: both are reckoned, the worse is told.

A bracket holds the bolt's line across the pane and sideways, and leaves all turns free (on the safe side: a
bracket's leg that lies flat holds the twist too). Along the rail its bolt sits in a hole with play, on
something that gives: it may hold or not, both are reckoned.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from panewright.seal.sealant import Bead

Sideways = Literal["free", "bead", "held"]
Joint = Literal["mitred", "lapped", "welded"]

HELD_MPA = 1e6  #: stiffness of a line that does not give, against 0.1 to 1 of silicone
RIGID_NMM = 1e13  #: a corner that does not turn, against 1e8 of the stiffest rail
SILICONE_SHEAR_PA = 0.33e6  #: a third of E = 1.0 MPa, the low end of two-part silicones (recalled)
_TURNS: dict[Joint, tuple[float, ...]] = {
    "mitred": (0.0, RIGID_NMM),
    "lapped": (0.0,),
    "welded": (RIGID_NMM,),
}


@dataclass(frozen=True, slots=True)
class Condition:
    """One way in which a frame may stand."""

    sideways: Sideways
    spring_mpa: float  #: N/mm of hold for each mm of rail and mm of movement
    turn_nmm: float  #: moment of a corner for each radian about its upright line
    along: bool  #: whether brackets hold along the rail


def bead_spring_mpa(bead: Bead) -> float:
    """Hold of an elastic bead in shear: modulus times bite over glue line. [N/mm2]

    >>> from panewright.seal.sealant import Sealant
    >>> round(bead_spring_mpa(Bead(Sealant("silicone", 138e3, 7e3, 0.25, 300, True), 8, 6, 5)), 2)
    0.44
    """
    return SILICONE_SHEAR_PA * 1e-6 * bead.bite_mm / bead.glue_line_mm


@lru_cache(maxsize=64)
def conditions(joint: Joint, bead: Bead) -> tuple[Condition, ...]:
    """All that are reckoned for a frame; kept, for a search of places asks again and again."""
    springs: tuple[tuple[Sideways, float], ...] = (
        ("free", 0.0),
        ("bead", bead_spring_mpa(bead)),
        ("held", HELD_MPA),
    )
    return tuple(
        Condition(sideways, spring, turn, along)
        for sideways, spring in springs
        for turn in _TURNS[joint]
        for along in (True, False)
    )
