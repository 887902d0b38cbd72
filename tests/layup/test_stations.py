"""Where the tabs come down on each bus: the places, seen from the bench, are those of the lay-up."""

from collections import Counter
from itertools import pairwise

import pytest
from hypothesis import given, settings
from tests.layup.test_figures import layups

from panewright.drawing.drawing import Dimension, Text
from panewright.drawing.overlap import overlaps
from panewright.layup.candidates import candidates
from panewright.layup.drawn.bus_sheet import bus_sheet
from panewright.layup.lengths import bus_pieces
from panewright.layup.place import lay
from panewright.layup.stations import bus_kinds, stations
from panewright.layup.tabs import busbar_offsets_mm


@settings(max_examples=25, deadline=None)
@given(layups())
def test_every_tab_on_a_bus_is_marked_where_its_cell_has_a_busbar(layup):
    """From cells alone: the middle of each cell and its busbars, mirrored onto the bench."""
    for bus in layup.buses:
        row = 0 if bus.end == "bottom" else layup.plan.rows - 1
        cells = [cell for cell in layup.cells if cell.column in bus.columns and cell.row == row]
        left = layup.pane_width_mm - max(x for x, _ in bus.points)
        wanted = sorted(
            layup.pane_width_mm - cell.centre[0] - offset - left
            for cell in cells
            for offset in busbar_offsets_mm(cell.shape)
        )
        found = [mark.at_mm for mark in stations(layup, bus) if mark.what == "tab"]
        assert found == pytest.approx(wanted, abs=1e-3)
        assert all(0 < at < bus.length_mm for at in found)


@settings(max_examples=25, deadline=None)
@given(layups())
def test_kinds_hold_every_bus_lead_and_tap_once(layup):
    kinds = bus_kinds(layup)
    whole = Counter()
    for kind in kinds:
        whole[kind.length_mm] += kind.quantity
    bought = Counter()
    for piece in bus_pieces(layup):
        bought[piece.length_mm] += piece.quantity
    assert whole == bought
    marks = Counter(mark.what for kind in kinds for mark in kind.stations * kind.quantity)
    assert marks["lead"] == len(layup.leads)
    assert marks["tap"] == len(layup.taps)


def test_the_sheet_writes_each_place_from_the_left_end(whole):
    layup = lay(next(plan for plan in candidates(whole, 36) if plan.columns == 4), whole)
    sheet = bus_sheet(layup, panels=4)
    join = next(kind for kind in bus_kinds(layup) if kind.name == "joins two columns")
    apart = [b.at_mm - a.at_mm for a, b in pairwise(m for m in join.stations if m.what == "tab")]
    assert apart == pytest.approx(
        [52.0, 52.0, 55.0, 52.0, 52.0]
    )  # three busbars a cell, 3 mm between columns
    words = {item.words.replace("\u2009", " ") for item in sheet.items if isinstance(item, Text)}
    assert {f"{mark.at_mm:g} mm" for mark in join.stations if mark.what == "tab"} <= words
    cut = {item.length_mm for item in sheet.items if isinstance(item, Dimension)}
    assert cut == {piece.length_mm for piece in (*layup.buses, *layup.tails)}
    assert sheet.side == "sunny side down"


def test_places_on_a_bus_of_twelve_strings_stay_apart(whole):
    layup = lay(next(plan for plan in candidates(whole, 6, 12) if plan.columns == 12), whole)
    for letter in (8.0, 20.0, 40.0):
        assert overlaps(bus_sheet(layup, letter), "metric") == ()
