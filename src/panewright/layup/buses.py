"""Bus ribbons at the ends of the columns, the leads on them and the taps for bypass diodes.

A bus that joins two columns lies next to the cells, in lane 1. The bus of a lead passes outside of those
in its way, in lane 2 or 3, and runs on towards the middle of the pane, where the junction box sits:

    col 0      col 1      col 2      col 3
     | |        | |        | |        | |
     | |        ===tap joins 1 and 2===  | |      lane 1
     ====== minus lead    plus lead ======      lane 2
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from panewright.layup.columns import columns_in_order, end_after, minus_lane, plus_lane
from panewright.layup.layup import Bus, End, Lead, PlacedCell, Plan, Point, Tap
from panewright.layup.room import (
    BUS_PAST_TAB_MM,
    BUSES_APART_MM,
    LEADS_APART_MM,
    bus_offset_mm,
    lane_offset_mm,
)
from panewright.layup.tabs import busbar_offsets_mm

Pane = tuple[float, float]
LeadPole = Literal["minus", "plus"]
Xs = tuple[float, ...]


@dataclass(frozen=True, slots=True)
class _Ends:
    """What every bus needs to know of the field of cells."""

    plan: Plan
    pane: Pane
    tab_xs: dict[int, Xs]  # across the pane, by column
    past_mm: float  # how far a bus runs on past its last tab
    offset_mm: float  # cells to the nearest bus

    def xs(self, columns: tuple[int, ...]) -> Xs:
        """Where the tabs of some columns lie, left to right."""
        return tuple(sorted(x for column in columns for x in self.tab_xs[column]))

    def y(self, end: End, lane: int) -> float:
        """Height of the middle of a lane."""
        out = self.offset_mm + lane_offset_mm(lane, self.plan.bus_width_mm)
        below = self.plan.end_margin_mm - out
        return below if end == "bottom" else self.pane[1] - below


def buses_of(plan: Plan, cells: tuple[PlacedCell, ...], pane: Pane, tab_width_mm: float) -> tuple[Bus, ...]:
    """All pieces of bus ribbon: the minus lead's, those that join columns, the plus lead's."""
    tab_xs = {cell.column: _tab_xs(cell) for cell in cells}
    offset = max(bus_offset_mm(cell.shape, plan.rows) for cell in cells)
    ends = _Ends(plan, pane, tab_xs, _past_mm(plan, cells[0], tab_width_mm), offset)
    return (_lead_bus(ends, "minus"), *_join_buses(ends), _lead_bus(ends, "plus"))


def _past_mm(plan: Plan, cell: PlacedCell, tab_width_mm: float) -> float:
    """How far a bus runs on past its last tab: less where the next column's tabs are near. [mm]"""
    half = tab_width_mm / 2
    facing = plan.string_gap_mm + cell.shape.width_mm / cell.shape.busbars
    return min(BUS_PAST_TAB_MM + half, max(half, (facing - BUSES_APART_MM - 1.0) / 2))


def leads_of(plan: Plan, buses: tuple[Bus, ...], pane: Pane) -> tuple[Lead, ...]:
    """Where both leads leave: beside the middle of the pane if at one end, else at the middle of a bus."""
    return tuple(
        Lead(bus.pole, _lead_at(plan, bus, pane, bus.pole)) for bus in buses if bus.pole != "between"
    )


def taps_of(plan: Plan, buses: tuple[Bus, ...], pane: Pane) -> tuple[Tap, ...]:
    """Where the wires between two bypass diodes leave: on a joining bus, as near to the box as it goes."""
    step = plan.in_series // plan.substrings
    return tuple(
        Tap(bus.after_cell, bus.after_cell // plan.in_series, _tap_at(bus, pane[0] / 2))
        for bus in buses
        if bus.pole == "between" and bus.after_cell % plan.in_series % step == 0
    )


def crossings(buses: tuple[Bus, ...]) -> tuple[Point, ...]:
    """Where tabs on their way to an outer lane cross another bus: each needs a film between."""
    found = []
    for outer in buses:
        for inner in buses:
            if inner.end == outer.end and inner.lane < outer.lane:
                (left, y), (right, _) = inner.points[0], inner.points[-1]
                found += [(x, y) for x in outer.tabs_x_mm if left <= x <= right]
    return tuple(sorted(found))


def film_mm(bus_width_mm: float) -> float:
    """Side of the square of film at a crossing: 2 mm past the bus all round; common practice. [mm]

    >>> film_mm(5.0)
    9.0
    """
    return bus_width_mm + 4.0


def _tab_xs(cell: PlacedCell) -> Xs:
    return tuple(cell.centre[0] + offset for offset in busbar_offsets_mm(cell.shape))


def _join_buses(ends: _Ends) -> Iterator[Bus]:
    """Buses from the plus end of one column to the minus end of the next."""
    plan = ends.plan
    for string in range(plan.strings):
        order = columns_in_order(plan, string)
        for join in range(1, len(order)):
            after = string * plan.in_series + join * plan.rows
            yield _join_bus(ends, order[join - 1 : join + 1], end_after(join), after)


def _join_bus(ends: _Ends, columns: tuple[int, ...], end: End, after_cell: int) -> Bus:
    xs, y = ends.xs(columns), ends.y(end, 1)
    line = ((xs[0] - ends.past_mm, y), (xs[-1] + ends.past_mm, y))
    return _bus(ends, f"join after cell {after_cell}", line, after_cell, "between", end, 1, columns)


def _lead_bus(ends: _Ends, pole: LeadPole) -> Bus:
    """The bus that gathers one pole of every string and carries its lead."""
    plan = ends.plan
    which = 0 if pole == "minus" else -1
    columns = tuple(columns_in_order(plan, string)[which] for string in range(plan.strings))
    end: End = "bottom" if pole == "minus" else end_after(plan.columns_a_string)
    lane = minus_lane(plan) if pole == "minus" else plus_lane(plan)
    xs, y = ends.xs(columns), ends.y(end, lane)
    reach = (*xs, _lead_x(ends.pane, pole)) if plan.leads_one_end else xs
    line = ((min(reach) - ends.past_mm, y), (max(reach) + ends.past_mm, y))
    after = 0 if pole == "minus" else plan.in_series * plan.strings
    return _bus(ends, f"{pole} bus", line, after, pole, end, lane, columns)


def _bus(
    ends: _Ends,
    name: str,
    line: tuple[Point, Point],
    after_cell: int,
    pole: Literal["minus", "plus", "between"],
    end: End,
    lane: int,
    columns: tuple[int, ...],
) -> Bus:
    (left, y), (right, _) = line
    length = math.ceil(right - left - 1e-9)  # cut to whole millimetres, as much more at both ends
    more = (length - (right - left)) / 2
    return Bus(
        name,
        ((left - more, y), (right + more, y)),
        float(length),
        after_cell,
        pole,
        end,
        lane,
        columns,
        ends.xs(columns),
        ends.plan.bus_width_mm,
    )


def _lead_x(pane: Pane, pole: LeadPole) -> float:
    """Across the pane, where a lead leaves if both are at one end; minus on the left. [mm]"""
    apart = LEADS_APART_MM / 2
    return pane[0] / 2 + (-apart if pole == "minus" else apart)


def _lead_at(plan: Plan, bus: Bus, pane: Pane, pole: LeadPole) -> Point:
    y = bus.points[0][1]
    if plan.leads_one_end:
        return _whole_on(bus, _lead_x(pane, pole)), y
    middle = pane[0] / 2 if plan.strings > 1 else (bus.points[0][0] + bus.points[-1][0]) / 2
    return middle, y


def _whole_on(bus: Bus, x: float) -> float:
    """The nearest place at which a tail, as wide as the bus, lies on it with its whole width. [mm]"""
    left, right, half = bus.points[0][0], bus.points[-1][0], bus.width_mm / 2
    if right - left < bus.width_mm:
        return (left + right) / 2
    return min(max(x, left + half), right - half)


def _tap_at(bus: Bus, middle_mm: float) -> Point:
    """On the bus between its outer tabs, as near to the box as it goes but outside of both leads."""
    left, right = bus.tabs_x_mm[0], bus.tabs_x_mm[-1]
    beside = (left + right) / 2 - middle_mm
    wanted = middle_mm if abs(beside) < 1e-6 else middle_mm + math.copysign(LEADS_APART_MM, beside)
    return _whole_on(bus, min(max(wanted, left), right)), bus.points[0][1]
