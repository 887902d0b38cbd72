"""Holes of a back board's screws in the seats, from the rails' datum."""

from dataclasses import replace

import pytest

from panewright.frame.rail import Rail
from panewright.glass.pane import Pane, Sheet
from panewright.seal.sealant import Bead, Sealant
from panewright.structure.drilling.board import board_line_mm, seat_room
from panewright.structure.drilling.frame_plan import plan_frame
from panewright.structure.handling import hole_checks
from panewright.structure.rails.rails import Brackets

SILICONE = Sealant("glazing silicone", 138e3, 7e3, 0.25, 300, structural=True)
BEAD = Bead(SILICONE, 8.0, 6.0, 5.0)
RAIL = Rail("L38", "angle", 38.1, 38.1, 3.175, "6063-T6", 6000)
PANE = Pane(1600, 1000, Sheet("tempered 4", "glass", "tempered", "plain", 4.0, 3.78, 2500, 9e-6, 0.9))


@pytest.mark.parametrize("corner", ["mitred", "lapped", "welded"])
def test_every_seat_has_them_in_one_line_clear_of_the_others(corner):
    plan = plan_frame(PANE, BEAD, RAIL, Brackets(2, 300.0), corner=corner, board=True)
    for piece in plan.pieces:
        holes = [hole for hole in piece.holes if hole.purpose == "board"]
        assert {hole.leg for hole in holes} == {"seat"}
        assert {hole.across_mm for hole in holes} == {board_line_mm(RAIL, BEAD)}
        assert min(hole.along_mm for hole in holes) == pytest.approx(50.0, abs=20.0)
        assert [hole.along_mm for hole in piece.holes] == sorted(hole.along_mm for hole in piece.holes)
    assert all(check.passed for check in hole_checks(plan))


def test_no_board_no_holes():
    assert plan_frame(PANE, BEAD, RAIL, Brackets(2, 300.0)).holes("board") == 0


def test_a_narrow_seat_or_a_tube_has_no_room_for_a_nut():
    wide = replace(RAIL, seat_mm=RAIL.wall_mm + BEAD.gap_mm + BEAD.bite_mm + 12.0)
    assert seat_room(wide, BEAD).passed
    assert not seat_room(replace(wide, seat_mm=wide.seat_mm - 3.0), BEAD).passed
    assert not seat_room(replace(wide, profile="tube"), BEAD).passed
