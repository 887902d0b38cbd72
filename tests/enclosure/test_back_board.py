"""The board behind an air gap: screws, sag, span, and which is taken."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.enclosure.back_board import (
    APART_MM,
    FROM_END_MM,
    Screwed,
    board_checks,
    board_places,
    choose_back,
    farthest_mm,
    sag_mm,
    screw_holds_n,
)
from panewright.enclosure.back_sheet import Back, BackLoad

SHEET = Back("sheet", "laminate", 0.35, 1000.0, 105.0, 1.5, 0.75, 0.2, 50e6, 0.48)
GLASS = Back("glass", "glass", 3.0, 1500.0, 130.0, 0.0, 0.05, 1.0, 20e6, 7.5)
BOARD = Back("board", "plastic", 4.0, 1000.0, 90.0, 0.5, 0.6, 0.2, 20e6, 3.64)
HARD = Back("hard", "plastic", 3.0, 1500.0, 130.0, 0.1, 0.1, 0.3, 100e6, 5.55, stiff_pa=18e9)
HELD = Screwed(1000.0, 600.0, 1000.0, 0.7)


def failed(back, held=HELD):
    return [check.rule for check in board_checks(back, held) if not check.passed]


@pytest.mark.parametrize(
    ("sides", "factor"), [(1.0, 0.00406), (1.5, 0.00772), (2.0, 0.01013), (5.0, 0.01297)]
)
def test_the_sag_is_that_of_the_table_of_plates(sides, factor):
    """Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, table 8 (recalled)."""
    held = replace(HELD, long_mm=600.0 * sides)
    load_pa, plate_nm = 9.81 * (5.55 + 0.7), 18e9 * 0.003**3 / (12 * 0.91)
    assert sag_mm(HARD, held) == pytest.approx(1000 * factor * load_pa * 0.6**4 / plate_nm, rel=0.003)


def test_a_thin_sheet_carries_no_cells_and_a_stiff_board_does():
    assert "back board stiff enough for its cells" in failed(SHEET)
    assert "back board's span between its screws" in failed(SHEET)
    assert failed(HARD) == []
    assert failed(GLASS) == ["screws through a back of glass"]


def test_the_board_taken_holds_voltage_heat_and_cells():
    shelf = (SHEET, GLASS, BOARD, HARD)
    assert choose_back(shelf, BackLoad(600.0, 96.0)) == SHEET  # bonded on a pour
    assert choose_back(shelf, BackLoad(600.0, 96.0), HELD) == HARD
    assert (
        choose_back(shelf[:3], BackLoad(600.0, 80.0), replace(HELD, short_mm=400.0, long_mm=500.0)) == BOARD
    )


def test_a_screw_holds_by_the_ring_of_its_washer():
    assert screw_holds_n(BOARD) == pytest.approx(3.14159 * 12.0 * 4.0 * 20.0 / 3, rel=1e-4)
    pulled = board_checks(BOARD, HELD)[0]
    assert pulled.demand == pytest.approx(1000.0 * 0.15 * 0.3)
    assert pulled.limit == pytest.approx(screw_holds_n(BOARD))
    assert failed(HARD, replace(HELD, suction_pa=1e6)) == ["back board holds under its screws"]


@given(st.floats(150.0, 4000.0))
def test_screws_stand_from_both_ends_alike_and_never_too_far_apart(long_mm):
    places = board_places(long_mm)
    assert places[0] == FROM_END_MM
    assert places[-1] == pytest.approx(long_mm - FROM_END_MM)
    assert farthest_mm([places]) <= APART_MM + 1.0


@given(st.floats(200.0, 1500.0), st.floats(1.0, 3.0), st.floats(1.01, 2.0))
def test_a_wider_or_heavier_board_sags_more_and_a_thicker_less(short_mm, sides, more):
    held = Screwed(short_mm * sides, short_mm, 0.0, 0.7)
    sag = sag_mm(BOARD, held)
    assert sag_mm(BOARD, replace(held, cells_kg_m2=0.7 * more)) > sag
    assert sag_mm(BOARD, replace(held, short_mm=short_mm * more, long_mm=short_mm * sides * more)) > sag
    assert sag_mm(replace(BOARD, thickness_mm=4.0 * more), held) < sag
