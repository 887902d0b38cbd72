"""The rules a lay-up must hold: gaps between largest cells, creepage to metal, buses apart, leads."""

from __future__ import annotations

from collections.abc import Iterator

from panewright.check import Check
from panewright.layup.layup import Bus, Layup
from panewright.layup.room import BEND_ROOM_MM, BUSES_APART_MM, LEAST_GAP_MM
from panewright.layup.tolerance import least_gaps_mm, stack_up

_PRACTICE = "common practice"


def judge_layup(
    layup: Layup, needed_mm: float, rim_mm: float = 0.0, creepage_source: str = "creepage to metal"
) -> tuple[Check, ...]:
    """All rules held against one lay-up.

    Parameters
    ----------
    layup : cells and ribbons on their pane
    needed_mm : creepage from live parts to metal or the pane's edge, for the system's voltage
    rim_mm : how far metal reaches under the pane from its edge
    creepage_source : the standard that asks for `needed_mm`
    """
    return (
        *_gap_checks(layup),
        *_creepage_checks(layup, needed_mm, rim_mm, creepage_source),
        *_bus_checks(layup),
        _stack_check(layup),
    )


def leads_check(layup: Layup) -> Check:
    """Both leads come out at one end, where the order asks for it."""
    ends = 1.0 if layup.plan.leads_one_end else 2.0
    cure = "Take an even number of columns for each string."
    return Check("ends at which leads come out", ends, 1.0, "-", "asked for by the order", cure, "layup")


def _gap_checks(layup: Layup) -> Iterator[Check]:
    """Cells at their largest keep apart, and leave the ribbon room to bend."""
    along, across = least_gaps_mm(layup)
    if along != float("inf"):
        need = LEAST_GAP_MM if layup.front == "behind" else BEND_ROOM_MM
        cure = f"Make the cell gap {need - along:.1f} mm wider."
        yield _check("room for the ribbon's bend between largest cells", need, along, cure)
    if across != float("inf"):
        cure = f"Make the gap between columns {LEAST_GAP_MM - across:.1f} mm wider."
        yield _check("gap between largest cells of two columns", LEAST_GAP_MM, across, cure)


def _creepage_checks(layup: Layup, needed: float, rim: float, source: str) -> Iterator[Check]:
    left = min(
        cell.centre[0] - _half_width(cell.shape.width_mm, cell.shape.tolerance_mm) for cell in layup.cells
    )
    side = left - rim
    cure = f"Make the side margins {needed - side:.1f} mm wider."
    yield _check("creepage from cells to metal at the sides", needed, side, cure, source)
    end = min(_to_edge_mm(layup, bus) for bus in layup.buses) - rim
    cure = f"Make the end margins {needed - end:.1f} mm longer."
    yield _check("creepage from bus ribbons to metal at the ends", needed, end, cure, source)


def _half_width(width: float, tolerance: float) -> float:
    return (width + tolerance) / 2


def _to_edge_mm(layup: Layup, bus: Bus) -> float:
    """Nearest outer edge of a bus to the pane's edge at its end or its sides. [mm]"""
    (left, y), (right, _) = bus.points[0], bus.points[-1]
    across = y if bus.end == "bottom" else layup.pane_height_mm - y
    return min(across - bus.width_mm / 2, left, layup.pane_width_mm - right)


def _bus_checks(layup: Layup) -> Iterator[Check]:
    apart = min(
        (
            gap
            for index, bus in enumerate(layup.buses)
            for other in layup.buses[index + 1 :]
            if (gap := _apart_mm(bus, other)) is not None
        ),
        default=None,
    )
    if apart is not None:
        cure = "Use a narrower bus ribbon or a wider gap between columns."
        yield _check("distance between bus ribbons", BUSES_APART_MM, apart, cure)


def _apart_mm(one: Bus, other: Bus) -> float | None:
    """Clear distance between two buses at the same end; None for two ends. [mm]"""
    if one.end != other.end:
        return None
    beside = max(other.points[0][0] - one.points[-1][0], one.points[0][0] - other.points[-1][0], 0.0)
    above = abs(one.points[0][1] - other.points[0][1]) - (one.width_mm + other.width_mm) / 2
    if above <= 0:
        return beside
    return float((beside**2 + above**2) ** 0.5)


def _stack_check(layup: Layup) -> Check:
    """The longest column must not reach the bus next to it."""
    past = stack_up(layup).past_each_end_mm
    nearest = max(_to_edge_of_lane_mm(layup, bus) for bus in layup.buses)
    clear = layup.plan.end_margin_mm - nearest
    cure = "Sort the cells by size, or solder shorter columns and join them on the glass."
    return _check("longest column of cells stays clear of the bus", past, clear, cure)


def _to_edge_of_lane_mm(layup: Layup, bus: Bus) -> float:
    """Inner edge of a bus to the pane's edge at its end. [mm]"""
    y = bus.points[0][1]
    across = y if bus.end == "bottom" else layup.pane_height_mm - y
    return across + bus.width_mm / 2


def _check(rule: str, demand: float, limit: float, cure: str, source: str = _PRACTICE) -> Check:
    return Check(rule, demand, limit, "mm", source, "" if demand <= limit else cure, "layup")
