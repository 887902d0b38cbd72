"""Where the screws of a back board go into the seats: a line between the bead and the seat's edge.

The pane is set before the board is laid on, so nothing can be held behind the seat. A tapping screw cuts its
thread into the seat itself. It goes through board and seat and ends short of the pane above:

    washer + board + seat  <=  length  <=  washer + board + seat + glue line - 1 mm
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from panewright.check import Check
from panewright.frame.joining.fastener import FASTENERS
from panewright.frame.joining.tapping import TappingScrew, pull_out_n
from panewright.frame.joining.wall import aluminium_wall
from panewright.frame.metals.aluminium import Family
from panewright.frame.rail import Rail
from panewright.seal.sealant import Bead
from panewright.shelf.shelf import Row, Shelf, Sundry
from panewright.structure.drilling.fixing import BOARD
from panewright.units import INCH_MM

CLEAR_MM = 3.0  #: of seat round a hole; common practice
WASHER_THICK_MM = 1.0  #: under the head; common practice
SHORT_OF_PANE_MM = 1.0  #: from the screw's end to the pane; common practice
_GAMMA_Q = 1.5  # on wind, EN 1990
_ASCE_MOST_MM = 0.125 * INCH_MM  # a thicker wall is counted as this: the rule for pull-out ends there
_WIDE_MM = 1e-6


def tapping_screw() -> TappingScrew:
    """The screw of a board, by the figures that corners reckon with."""
    screw = FASTENERS["tapping screw 5.5"]
    assert isinstance(screw, TappingScrew)
    return screw


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
    """Whether a screw finds room on the seat beside the bead."""
    room_mm = 0.0 if rail.profile == "tube" else max(0.0, rail.seat_mm - _bead_mm(rail, bead))
    return Check(
        "room on the seat for the back board's screws",
        BOARD.hole_mm + 2 * CLEAR_MM,
        room_mm,
        "mm",
        "hole clear of bead and edge by 3 mm: common practice; the wall of a tube is not reckoned",
        "Take a rail with a wider seat, no tube.",
        "frame",
    )


def least_long_mm(board_mm: float, rail: Rail) -> float:
    """A screw under its head, so that its thread is cut through the whole seat. [mm]"""
    return WASHER_THICK_MM + board_mm + rail.wall_mm


def most_long_mm(board_mm: float, rail: Rail, bead: Bead) -> float:
    """A screw under its head, so that it ends short of the pane. [mm]"""
    return least_long_mm(board_mm, rail) + bead.glue_line_mm - SHORT_OF_PANE_MM


def board_screw(shelf: Shelf, board_mm: float, rail: Rail, bead: Bead) -> Row[Sundry] | None:
    """The longest of the shelf that ends short of the pane, or its shortest; None where it has none."""
    rows = [row for row in shelf.sundries if row.part.use == "board screw"]
    by_length = sorted(rows, key=lambda row: row.part.wall_mm)
    fitting = [r for r in by_length if r.part.wall_mm <= most_long_mm(board_mm, rail, bead) + _WIDE_MM]
    return next(iter(fitting[::-1] or by_length), None)


def screw_checks(screw: Row[Sundry] | None, board_mm: float, rail: Rail, bead: Bead) -> Sequence[Check]:
    """Whether the screw goes through its seat, and ends short of the pane."""
    long_mm = screw.part.wall_mm if screw else 0.0
    cure = "Bring a screw of another length, or take another board."
    source = "washer, board, seat and glue line above it, a millimetre free: common practice"
    return (
        Check(
            "back board's screw goes through the seat",
            least_long_mm(board_mm, rail),
            long_mm,
            "mm",
            source,
            cure,
            "frame",
        ),
        Check(
            "back board's screw ends short of the pane",
            long_mm,
            most_long_mm(board_mm, rail, bead),
            "mm",
            source,
            cure,
            "frame",
        ),
    )


def thread_check(rail: Rail, suction_n: float, family: Family) -> Check:
    """Whether the thread that a screw cuts into the seat holds its share of the wind."""
    wall = aluminium_wall(rail.alloy, rail.wall_mm, family)
    if wall and family == "ASCE":
        wall = replace(wall, thickness_mm=min(wall.thickness_mm, _ASCE_MOST_MM))
    holds_n = pull_out_n(tapping_screw(), wall, family) if wall else None
    source = (
        "EN 1999-1-4 clause 8.3, pull-out (recalled), 1.5 on wind"
        if family == "EN"
        else "Aluminum Design Manual J.5, pull-out (recalled)"
    )
    return Check(
        "back board's screw holds in the seat",
        suction_n * (_GAMMA_Q if family == "EN" else 1.0),
        holds_n or 0.0,
        "N",
        source,
        "Take a rail with a thicker wall or of a listed alloy, or a narrower panel.",
        "frame",
    )
