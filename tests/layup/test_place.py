"""Laws of every lay-up: cells, ribbons and buses where they belong, and nothing touches what it must not."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cell.kind import CellKind
from panewright.cell.nameplate import Nameplate
from panewright.cell.shape import Shape
from panewright.layup.buses import crossings
from panewright.layup.candidates import Pins, candidates
from panewright.layup.layup import Layup, Plan
from panewright.layup.place import cyclic_shapes, lay

NAMEPLATE = Nameplate(9.0, 0.63, 8.5, 0.53, 0.0005, -0.003)


@st.composite
def layups(draw, most_cells=40, fronts=("minus", "plus", "behind")):
    width = draw(st.floats(40.0, 220.0))
    shape = Shape(width, draw(st.floats(60.0, 220.0)), busbars=draw(st.integers(1, 9)), busbar_width_mm=0.5)
    parts = draw(st.sampled_from((1, 2, 3)))
    kind = CellKind("drawn", shape, NAMEPLATE, draw(st.sampled_from(fronts)), parts)
    plans = candidates(kind, draw(st.integers(1, most_cells)), draw(st.integers(1, 4)))
    return lay(draw(st.sampled_from(plans)), kind, draw(st.floats(0.3, 2.5)))


def rectangle(cell):
    (x, y), half_w, half_l = cell.centre, cell.shape.width_mm / 2, cell.shape.length_mm / 2
    return x - half_w, y - half_l, x + half_w, y + half_l


def bus_rectangle(bus):
    (left, y), (right, _) = bus.points
    return left, y - bus.width_mm / 2, right, y + bus.width_mm / 2


def meet(one, other, clear=0.0):
    return (
        one[0] < other[2] + clear and other[0] < one[2] + clear
        and one[1] < other[3] + clear and other[1] < one[3] + clear
    )  # fmt: skip


@settings(deadline=None)
@given(layups())
def test_cells_never_overlap_and_lie_within_the_pane(layup: Layup):
    boxes = [rectangle(cell) for cell in layup.cells]
    assert not any(meet(a, b) for i, a in enumerate(boxes) for b in boxes[i + 1 :])
    assert all(
        left > 0 and low > 0 and right < layup.pane_width_mm and high < layup.pane_height_mm
        for left, low, right, high in boxes
    )


@settings(deadline=None)
@given(layups())
def test_the_string_snakes_from_neighbour_to_neighbour(layup: Layup):
    assert [cell.number for cell in layup.cells] == list(range(1, len(layup.cells) + 1))
    for here, there in pairwise(layup.cells):
        if here.string == there.string:
            assert abs(here.column - there.column) + abs(here.row - there.row) == 1


@settings(deadline=None)
@given(layups())
def test_an_even_number_of_columns_brings_both_leads_to_one_end_and_an_odd_one_does_not(layup: Layup):
    assert [lead.pole for lead in layup.leads] == ["minus", "plus"]
    ends = {lead.at[1] < layup.pane_height_mm / 2 for lead in layup.leads}
    assert len(ends) == (1 if layup.plan.columns_a_string % 2 == 0 else 2)


@settings(deadline=None)
@given(layups())
def test_there_is_a_ribbon_on_every_busbar_at_every_joint_of_a_column(layup: Layup):
    busbars = layup.cells[0].shape.busbars
    assert len(layup.tabs) == busbars * layup.plan.columns * (layup.plan.rows + 1)


@settings(deadline=None)
@given(layups())
def test_every_ribbon_runs_from_a_plus_to_the_next_minus(layup: Layup):
    for tab in layup.tabs:
        if tab.from_cell and tab.to_cell:
            assert tab.to_cell == tab.from_cell + 1


@settings(deadline=None)
@given(layups(fronts=("minus", "plus")))
def test_the_front_pole_says_which_half_of_a_ribbon_is_seen(layup: Layup):
    """With the minus in front the ribbon lies on the sunny side of the cell it runs to."""
    for tab in layup.tabs:
        seen = tab.to_cell if layup.front == "minus" else tab.from_cell
        behind = tab.from_cell if layup.front == "minus" else tab.to_cell
        for line, number in ((tab.front, seen), (tab.back, behind)):
            assert (line is None) == (number is None)
            if line and number:
                left, low, right, high = rectangle(layup.cells[number - 1])
                assert all(left < x < right and low - 1e-6 <= y <= high + 1e-6 for x, y in line)


@settings(deadline=None)
@given(layups())
def test_every_joining_bus_takes_the_plus_of_one_column_and_the_minus_of_the_next(layup: Layup):
    for bus in layup.buses:
        arriving, leaving = on_bus(layup, bus)
        if bus.pole == "minus":
            assert (arriving, leaving) == (set(), firsts(layup))
        elif bus.pole == "plus":
            assert (arriving, leaving) == (lasts(layup), set())
        else:
            assert (arriving, leaving) == ({bus.after_cell}, {bus.after_cell + 1})


def on_bus(layup, bus):
    """Numbers of the cells whose ribbons end on a bus, found from the drawing alone."""
    left, low, right, high = bus_rectangle(bus)
    arriving, leaving = set(), set()
    for tab in layup.tabs:
        tip = tab.points[-1] if tab.to_cell is None else tab.points[0]
        if (
            None in (tab.to_cell, tab.from_cell)
            and left < tip[0] < right
            and low - 1e-6 < tip[1] < high + 1e-6
        ):
            (arriving if tab.to_cell is None else leaving).add(tab.from_cell or tab.to_cell)
    return arriving, leaving


def firsts(layup):
    return {1 + string * layup.plan.in_series for string in range(layup.plan.strings)}


def lasts(layup):
    return {(string + 1) * layup.plan.in_series for string in range(layup.plan.strings)}


@settings(deadline=None)
@given(layups())
def test_no_bus_touches_another_or_a_cell(layup: Layup):
    boxes = [bus_rectangle(bus) for bus in layup.buses]
    assert not any(meet(a, b, clear=1.0) for i, a in enumerate(boxes) for b in boxes[i + 1 :])
    assert not any(meet(bus, rectangle(cell)) for bus in boxes for cell in layup.cells)


@settings(deadline=None)
@given(layups())
def test_a_ribbon_crosses_a_foreign_bus_only_where_a_film_is_asked_for(layup: Layup):
    films = crossings(layup.buses)
    for tab in layup.tabs:
        xs, ys = zip(*tab.points, strict=True)
        line = (xs[0], min(ys), xs[0], max(ys))
        for bus in layup.buses:
            if meet(line, bus_rectangle(bus)) and not joins(tab, bus, layup):
                assert (xs[0], bus.points[0][1]) in films


def joins(tab, bus, layup):
    arriving, leaving = on_bus(layup, bus)
    return (tab.to_cell is None and tab.from_cell in arriving) or (
        tab.from_cell is None and tab.to_cell in leaving
    )


@settings(deadline=None)
@given(layups())
def test_one_string_and_two_need_no_film_anywhere(layup: Layup):
    if layup.plan.strings <= 2:
        assert crossings(layup.buses) == ()


@settings(deadline=None)
@given(layups())
def test_leads_and_taps_lie_on_their_bus(layup: Layup):
    poles = {bus.pole: bus for bus in layup.buses if bus.pole != "between"}
    joining = {bus.after_cell: bus for bus in layup.buses if bus.pole == "between"}
    places = [(lead.at, poles[lead.pole]) for lead in layup.leads]
    places += [(tap.at, joining[tap.after_cell]) for tap in layup.taps]
    for (x, y), bus in places:
        left, low, right, high = bus_rectangle(bus)
        assert left < x < right
        assert low < y < high


@settings(deadline=None)
@given(layups())
def test_there_is_a_tap_between_every_two_diodes_at_the_end_of_the_leads(layup: Layup):
    plan = layup.plan
    assert len(layup.diode_after) == plan.substrings + 1
    assert len(layup.taps) == plan.strings * (plan.substrings - 1)
    assert all(tap.at[1] < layup.pane_height_mm / 2 for tap in layup.taps)
    within = {tap.after_cell - tap.string * plan.in_series for tap in layup.taps}
    assert within == set(layup.diode_after[1:-1])


def test_a_ribbon_between_two_cells_is_as_long_as_its_parts():
    """Two cells less 2 mm each, the gap, and two bends of 0.5 mm."""
    kind = CellKind("square", Shape(156.0, 156.0), NAMEPLATE, "minus")
    layup = lay(candidates(kind, 36, pins=Pins(columns=4, substrings=2, cell_gap_mm=3.0))[0], kind)
    joint = next(tab for tab in layup.tabs if tab.from_cell == 1)
    assert joint.length_mm == pytest.approx(154 + 3 + 154 + 1)
    end = next(tab for tab in layup.tabs if tab.from_cell is None and tab.to_cell == 10)
    assert end.length_mm == pytest.approx(154 + 4 + 5 + 0.5)


def test_back_contact_cells_are_joined_behind_by_short_ribbons():
    kind = CellKind("behind", Shape(125.0, 125.0), NAMEPLATE, "behind")
    layup = lay(candidates(kind, 12, pins=Pins(cell_gap_mm=2.0))[0], kind)
    assert all(tab.front is None for tab in layup.tabs)
    joint = next(tab for tab in layup.tabs if tab.from_cell == 1)
    assert joint.length_mm == pytest.approx(5 + 2 + 5)
    assert joint.steps == 0


def test_thirds_are_laid_in_cyclic_order_and_only_the_outer_ones_are_clipped():
    kind = CellKind("thirds", Shape(156.0, 156.0, circle_mm=205.0), NAMEPLATE, "minus", parts=3)
    shapes = cyclic_shapes(kind, 7)
    assert [shape.off_centre_mm for shape in shapes] == pytest.approx([-52, 0, 52, -52, 0, 52, -52])


def test_the_caller_may_say_which_strip_goes_where(halves):
    plan = candidates(halves, 4)[0]
    head = cyclic_shapes(halves, 2)[1]
    layup = lay(plan, halves, shapes=(head,) * 4)
    assert {cell.shape for cell in layup.cells} == {head}
    with pytest.raises(ValueError, match="need as many shapes"):
        lay(plan, halves, shapes=(head,))


def test_pane_width_adds_up_to_margins_cells_and_gaps(whole):
    plan = Plan(6, 12, 72, 1, 3, 3.0, 2.0, 20.0, 40.0, 5.0)
    layup = lay(plan, whole)
    assert layup.pane_width_mm == pytest.approx(6 * 156 + 5 * 2 + 40)
    assert layup.pane_height_mm == pytest.approx(12 * 156 + 11 * 3 + 80)
    assert layup.cells[0].centre == (20 + 78, 40 + 78)
    assert math.dist(layup.cells[0].centre, layup.cells[1].centre) == pytest.approx(159)
    assert layup.diode_after == (0, 24, 48, 72)


@pytest.mark.parametrize("counts", [(6, 12, 71, 1, 3), (5, 10, 25, 2, 1), (0, 12, 0, 1, 1)])
def test_a_plan_with_empty_places_is_refused_at_birth(counts):
    with pytest.raises(ValueError, match=r"whole columns|or more"):
        Plan(*counts, 3.0, 3.0, 20.0, 40.0, 5.0)
