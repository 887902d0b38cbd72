"""Holes of a back board's screws in the seats, from the rails' datum."""

from dataclasses import replace
from decimal import Decimal

import pytest

from panewright.frame.rail import Rail
from panewright.glass.pane import Pane, Sheet
from panewright.seal.sealant import Bead, Sealant
from panewright.shelf.load import load_shelf
from panewright.shelf.shelf import Row, Sundry
from panewright.structure.drilling.board import (
    board_line_mm,
    board_screw,
    screw_checks,
    seat_room,
    thread_check,
)
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


def test_a_narrow_seat_or_a_tube_has_no_room_for_a_screw():
    wide = replace(RAIL, seat_mm=RAIL.wall_mm + BEAD.gap_mm + BEAD.bite_mm + 12.0)
    assert seat_room(wide, BEAD).passed
    assert not seat_room(replace(wide, seat_mm=wide.seat_mm - 3.0), BEAD).passed
    assert not seat_room(replace(wide, profile="tube"), BEAD).passed


SHELF = load_shelf()


@pytest.mark.parametrize("board_mm", [3.0, 4.0, 5.0, 6.0])
def test_a_screw_of_the_shelf_goes_through_its_seat_and_ends_short_of_the_pane(board_mm):
    row = board_screw(SHELF, board_mm, RAIL, BEAD)
    beyond_mm = row.part.wall_mm - 1.0 - board_mm - RAIL.wall_mm  # washer, board, seat
    assert 0.0 <= beyond_mm <= BEAD.glue_line_mm - 1.0
    assert all(check.passed for check in screw_checks(row, board_mm, RAIL, BEAD))


def test_a_screw_that_would_meet_the_pane_or_miss_the_seat_is_told():
    long = Row("long", Sundry("long", "board screw", 0.005, 4.9, 16.0), Decimal(1), "each", "a test")
    short = replace(long, part=replace(long.part, wall_mm=6.0))
    judged = [screw_checks(row, 3.0, RAIL, BEAD) for row in (long, short, None)]
    failed = [[check.rule for check in checks if not check.passed] for checks in judged]
    assert failed[0] == ["back board's screw ends short of the pane"]
    assert failed[1] == failed[2] == ["back board's screw goes through the seat"]
    assert board_screw(replace(SHELF, sundries=(long,)), 3.0, RAIL, BEAD) == long
    assert board_screw(replace(SHELF, sundries=()), 3.0, RAIL, BEAD) is None


def test_the_thread_in_the_seat_holds_what_the_manual_says():
    """Aluminum Design Manual 2015 J.5: Ks D t Fty / Omega, Ks 1.2, Omega 3 (recalled); 6063-T6 25 ksi."""
    held = thread_check(RAIL, 500.0, "ASCE")
    assert held.limit == pytest.approx(1.2 * 5.5 * 3.175 * 172.4 / 3, rel=0.01)
    assert held.demand == 500.0
    thick = thread_check(replace(RAIL, wall_mm=5.0), 500.0, "ASCE")
    assert thick.limit == pytest.approx(held.limit)  # the rule ends at an eighth of an inch
    assert thread_check(RAIL, 500.0, "EN").demand == 750.0  # EN 1990, wind
    assert not thread_check(RAIL, 5000.0, "ASCE").passed
