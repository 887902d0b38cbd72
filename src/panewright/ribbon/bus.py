"""A bus ribbon: tabs of one column end on it, tabs of the next begin on it, or a lead leaves it.

Every tab brings or takes an equal share of the current, so along the bus the current changes in steps:

    tab   tab   tab          tab   tab   tab
     |1/3  |1/3  |1/3         |1/3  |1/3  |1/3
     v     v     v            ^     ^     ^        (three tabs in, three out)
    =============================================  bus
      1/3   2/3        1        2/3   1/3          share of the current in each piece

The loss is the sum over the pieces of share squared times length: exact for these currents, whatever
the places of the tabs. That tabs share evenly holds while the bus resists far less than cell and tabs.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from panewright.ribbon.resistance import ohm_per_m
from panewright.ribbon.strip import Strip
from panewright.units import MM


@dataclass(frozen=True, slots=True)
class BusRun:
    """Where current comes onto one piece of bus and where it leaves, measured along the bus."""

    enters_mm: tuple[float, ...]
    leaves_mm: tuple[float, ...]  #: one figure for a lead
    on_mm: float = 0.0  #: further run which carries the whole current, to the box or round a corner

    def __post_init__(self) -> None:
        if not self.enters_mm or not self.leaves_mm or self.on_mm < 0:
            raise ValueError(f"current enters and leaves a bus somewhere, got {self}")

    @property
    def on_pane_mm(self) -> float:
        """From the first tab to the last. [mm]"""
        places = (*self.enters_mm, *self.leaves_mm)
        return max(places) - min(places)

    @property
    def length_mm(self) -> float:
        """From the first tab to the last, and the run beyond. [mm]"""
        return self.on_pane_mm + self.on_mm


def whole_current_mm(run: BusRun) -> float:
    """Length of bus that would lose as much with the whole current in it. [mm]

    >>> whole_current_mm(BusRun(enters_mm=(0.0, 50.0), leaves_mm=(100.0,)))
    62.5
    """
    steps = [(place, 1 / len(run.enters_mm)) for place in run.enters_mm]
    steps += [(place, -1 / len(run.leaves_mm)) for place in run.leaves_mm]
    steps.sort()
    carried, total = 0.0, run.on_mm
    for (here, change), (there, _) in pairwise(steps):
        carried += change
        total += carried**2 * (there - here)
    return total


def bus_equivalent_ohm(strip: Strip, run: BusRun, temperature_c: float = 20.0) -> float:
    """The one resistance in series with the string which loses what this bus loses. [ohm]"""
    return ohm_per_m(strip, temperature_c) * whole_current_mm(run) * MM


def buses_equivalent_ohm(
    strip: Strip, runs: Sequence[BusRun], temperature_c: float = 20.0, shares: Sequence[float] = ()
) -> float:
    """All pieces of bus of one panel as one resistance in its line. [ohm]

    `shares` tell what part of the panel's current each piece carries: the whole where none are given.
    """
    parts = shares or (1.0,) * len(runs)
    return sum(
        share**2 * bus_equivalent_ohm(strip, run, temperature_c)
        for run, share in zip(runs, parts, strict=True)
    )
