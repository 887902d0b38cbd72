"""Where current comes onto each bus and where it leaves, for the resistance of the bus ribbon."""

from __future__ import annotations

from functools import lru_cache

from panewright.layup.buses import LeadPole
from panewright.layup.layup import Bus, Layup
from panewright.ribbon.bus import BusRun


@lru_cache(maxsize=64)
def bus_runs(layup: Layup) -> tuple[BusRun, ...]:
    """One run for each bus, in the order of `layup.buses`; lengths along the bus. [mm]

    A bus of a lead carries the current of all strings together, a joining bus that of one string. A lead's
    tail carries the whole on into the box; a tap's carries none while no cell is shaded.
    """
    leads = {lead.pole: lead.at[0] for lead in layup.leads}
    return tuple(_run(layup, bus, leads) for bus in layup.buses)


def bus_shares(layup: Layup) -> tuple[float, ...]:
    """What part of the panel's current each bus carries: a joining bus that of one string. [-]"""
    return tuple(1 / layup.plan.strings if bus.pole == "between" else 1.0 for bus in layup.buses)


def _run(layup: Layup, bus: Bus, leads: dict[LeadPole, float]) -> BusRun:
    start = bus.points[0][0]
    if bus.pole != "between":
        tabs = tuple(_from(start, x) for x in bus.tabs_x_mm)
        tail = sum(each.length_mm for each in layup.tails if each.pole == bus.pole)
        return BusRun(tabs, (_from(start, leads[bus.pole]),), round(tail, 6))
    middles = _middles(layup)
    split = [
        tuple(_from(start, x) for x in bus.tabs_x_mm if _column_at(middles, x) == column)
        for column in bus.columns
    ]
    return BusRun(split[0], split[1])


def _from(start: float, x: float) -> float:
    """Along the bus, to a millionth of a millimetre, so that runs alike come out equal. [mm]"""
    return round(x - start, 6)


def _middles(layup: Layup) -> frozenset[tuple[float, int]]:
    """Where across the pane the middles of each column's cells lie: many cells, few places."""
    return frozenset((cell.centre[0], cell.column) for cell in layup.cells)


def _column_at(middles: frozenset[tuple[float, int]], x: float) -> int:
    """The column whose cell lies over that place across the pane."""
    return min((abs(middle - x), column) for middle, column in middles)[1]
