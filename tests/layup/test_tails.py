"""Tails: each lead and tap has a ribbon of its own from its bus into the box, and the sheet tells it.

The figures are worked by hand from the places on the drawing; the bow, the widest box and what it reaches
past an exit are common practice, no source.
"""

import math

import pytest
from hypothesis import given, settings
from tests.layup.test_figures import layups

from panewright.drawing.drawing import Dimension, Text
from panewright.layup.candidates import Pins, candidates
from panewright.layup.drawn.bus_sheet import bus_sheet
from panewright.layup.lengths import bus_pieces, joints, sleeve_m
from panewright.layup.place import lay
from panewright.layup.room import Room
from panewright.layup.runs import bus_runs
from panewright.layup.stations import bus_kinds
from panewright.layup.tails import WIDE_BOX_MM, box_room

BEHIND_MM, RISE_MM = 2.35, 3.0  # 2 mm of silicone and a sheet of 0.35 mm; to the next whole millimetre


def laid(kind, in_series, columns, substrings=1):
    plans = (p for p in candidates(kind, in_series) if (p.columns, p.substrings) == (columns, substrings))
    return lay(next(plans), kind, behind_mm=BEHIND_MM)


@settings(max_examples=25, deadline=None)
@given(layups())
def test_every_exit_has_one_tail_that_begins_on_its_bus_and_ends_in_the_box(layup):
    exits = sorted(each.at for each in (*layup.leads, *layup.taps))
    assert sorted(tail.at for tail in layup.tails) == exits
    room = box_room(layup.plan, layup.leads, layup.taps)
    left, bottom, right, top = room.least
    assert right - left <= WIDE_BOX_MM + 1e-9
    for tail in layup.tails:
        (bus,) = [b for b in layup.buses if b.pole == tail.pole and b.after_cell == tail.after_cell]
        assert min(x for x, _ in bus.points) <= tail.at[0] <= max(x for x, _ in bus.points)
        assert tail.at[1] == bus.points[0][1]
        under = left < tail.at[0] < right and bottom < tail.at[1] < top
        assert (tail.way_mm == 0) == under
        assert (tail.sleeve_mm > 0) == (not under)
    assert joints(layup).of_leads == len(layup.tails)


@settings(max_examples=25, deadline=None)
@given(layups())
def test_no_tail_hangs_over_the_end_of_its_bus(layup):
    """A tail is a piece of the bus's own ribbon, laid square across it."""
    for exit_ in (*layup.leads, *layup.taps):
        (bus,) = (
            each
            for each in layup.buses
            if each.points[0][1] == exit_.at[1] and each.points[0][0] <= exit_.at[0] <= each.points[-1][0]
        )
        ends = (bus.points[0][0], bus.points[-1][0])
        assert min(abs(exit_.at[0] - end) for end in ends) >= bus.width_mm / 2 - 1e-9


def test_four_cells_in_a_row_have_their_leads_whole_on_a_wide_bus(whole):
    """Bus of 10 mm: the minus lead lay 3.9 mm from its bus's end."""
    room = Room(bus_width_mm=10.0)
    (plan, *_) = candidates(whole, 4, pins=Pins(columns=4, rows=1), room=room)
    layup = lay(plan, whole, behind_mm=BEHIND_MM)
    for lead in layup.leads:
        (bus,) = (each for each in layup.buses if each.pole == lead.pole)
        assert min(abs(lead.at[0] - x) for x, _ in (bus.points[0], bus.points[-1])) >= 5.0 - 1e-9


def test_a_tail_under_the_box_is_lap_and_rise_and_bow(whole):
    """5 mm across the bus, 3 mm out, 60 mm of bow."""
    layup = laid(whole, 36, 4, 2)
    assert [tail.length_mm for tail in layup.tails] == [68.0, 68.0, 68.0]
    assert {tail.bends_mm for tail in layup.tails} == {(5.0,)}
    assert sleeve_m(layup) == 0


def test_a_far_tap_comes_along_the_back_in_a_sleeve(whole):
    """Ten columns of 159 mm pitch: taps at 3 columns' pitch beside the middle, the box at the leads."""
    layup = laid(whole, 40, 10, 5)
    far = [tail for tail in layup.tails if tail.way_mm]
    near = box_room(layup.plan, layup.leads, layup.taps)
    assert len(far) == 2
    for tail in far:
        way = min(abs(tail.at[0] - x) for x in (near.left, near.right))
        assert tail.way_mm == pytest.approx(way)
        assert tail.length_mm == math.ceil(5.0 + RISE_MM + way + 60.0)
        assert tail.bends_mm == pytest.approx((5.0, 5.0 + RISE_MM, 5.0 + RISE_MM + way))
    assert sleeve_m(layup) == pytest.approx(sum(math.ceil(RISE_MM + tail.way_mm) for tail in far) / 1000)


def test_the_plus_lead_of_three_columns_runs_down_to_the_box_at_the_minus(whole):
    layup = laid(whole, 27, 3)
    minus, plus = layup.tails
    assert (minus.way_mm, minus.into) == (0.0, minus.at)
    assert plus.way_mm == pytest.approx(math.dist(plus.at, minus.at))
    assert plus.way_mm > 9 * 156


def test_a_tail_of_a_lead_carries_the_whole_current_on(whole):
    layup = laid(whole, 36, 4, 2)
    on = {bus.pole: run.on_mm for bus, run in zip(layup.buses, bus_runs(layup), strict=True)}
    assert on == {"minus": 68.0, "between": 0.0, "plus": 68.0}


def test_sheet_and_pieces_hold_every_tail_with_its_bends(whole):
    layup = laid(whole, 40, 10, 5)
    kinds = [kind for kind in bus_kinds(layup) if "to the box" in kind.name]
    pieces = [piece for piece in bus_pieces(layup) if "to the box" in piece.name]
    assert sum(kind.quantity for kind in kinds) == len(layup.tails) == sum(p.quantity for p in pieces)
    assert {(k.name, k.length_mm, len(k.stations)) for k in kinds} == {
        (p.name, p.length_mm, p.steps) for p in pieces
    }
    sheet = bus_sheet(layup)
    cut = {item.length_mm for item in sheet.items if isinstance(item, Dimension)}
    assert {tail.length_mm for tail in layup.tails} <= cut
    words = [item.words.replace("\u2009", " ") for item in sheet.items if isinstance(item, Text)]
    assert any(word.startswith("bend  5 mm") for word in words)
    assert sum("of sleeve from its first bend" in word for word in words) == 1
