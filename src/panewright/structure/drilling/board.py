"""Where the screws of a back board go through the seats: a line between the bead and the seat's edge.

A nut lies on the seat behind the pane, beside the bead; inside a tube none can be reached.
"""

from __future__ import annotations

from panewright.check import Check
from panewright.frame.rail import Rail
from panewright.seal.sealant import Bead

NUT_MM = 8.8  #: of an M5 over its corners; ISO 4032, recalled
CLEAR_MM = 1.0  #: round a nut; common practice


def _bead_mm(rail: Rail, bead: Bead) -> float:
    return rail.wall_mm + bead.gap_mm + bead.bite_mm


def board_line_mm(rail: Rail, bead: Bead) -> float:
    """Inward from the outside of the upright: the middle of what the bead leaves of the seat. [mm]

    The middle of the seat where the bead leaves nothing, and in a tube: the check of the room tells it.
    """
    inside = _bead_mm(rail, bead)
    return (
        (inside + rail.seat_mm) / 2 if inside < rail.seat_mm and rail.profile != "tube" else rail.seat_mm / 2
    )


def seat_room(rail: Rail, bead: Bead) -> Check:
    """Whether a nut finds room on the seat beside the bead."""
    room_mm = 0.0 if rail.profile == "tube" else max(0.0, rail.seat_mm - _bead_mm(rail, bead))
    return Check(
        "room on the seat for the back board's screws",
        NUT_MM + 2 * CLEAR_MM,
        room_mm,
        "mm",
        "nut of an M5 clear of bead and edge (ISO 4032, recalled); no nut is reached inside a tube",
        "Take a rail with a wider seat, no tube.",
        "frame",
    )
