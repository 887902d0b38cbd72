"""A lay-up as a circuit: each cell where it lies, each ribbon with what it resists.

The tabs of a cell, with the solder under them, stand for its joint, a bus that joins two columns for a
further resistance after the last cell of its column, the buses of the leads for the leads.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from panewright.cell.damage import Cracked
from panewright.cell.diode import Diode
from panewright.cell.model import CellModel, diode_at
from panewright.circuit.network import Network, String, Substring
from panewright.enclosure.bypass import Bypass
from panewright.layup.layup import Bus, Layup
from panewright.layup.runs import bus_runs
from panewright.ribbon.bus import bus_equivalent_ohm
from panewright.ribbon.resistance import TabRun, cell_equivalent_ohm
from panewright.ribbon.solder import solder_ohm
from panewright.ribbon.strip import Strip


@dataclass(frozen=True, slots=True)
class Unlike:
    """A cell that is not as the others of its kind."""

    number: int  #: as on the drawings
    model: CellModel | None = None  #: its own; None for its kind's
    cut_off: float = 0.0  #: share of its area behind a crack, under 1
    joint_ohm: float = 0.0  #: on top of what its joint has; infinite where it is open


@dataclass(frozen=True, slots=True)
class Wired:
    """All that makes a circuit of a lay-up."""

    layup: Layup
    models: tuple[CellModel, ...]  #: of the strips, in the cyclic order in which they lie
    tab: Strip
    bus: Strip
    run: TabRun
    bypass: Bypass | None
    light: float  #: share of the irradiance that reaches the silicon
    unlike: tuple[Unlike, ...] = ()


def network_at(wired: Wired, irradiance_w_m2: float, cell_c: float) -> Network:
    """The panel's circuit in one condition of light and heat."""
    kinds = tuple(diode_at(model, wired.light * irradiance_w_m2, cell_c) for model in wired.models)
    cells = [kinds[(cell.number - 1) % len(kinds)] for cell in wired.layup.cells]
    joints = list(_joints_ohm(wired, cell_c))
    for each in wired.unlike:
        if each.model:
            cells[each.number - 1] = diode_at(each.model, wired.light * irradiance_w_m2, cell_c)
        cells[each.number - 1] = Cracked(each.cut_off).of(cells[each.number - 1])
        joints[each.number - 1] += each.joint_ohm
    plan = wired.layup.plan
    strings = tuple(
        String(tuple(_substrings(wired, string * plan.in_series, cells, joints)))
        for string in range(plan.strings)
    )
    leads = sum(ohm for bus, ohm in _bus_ohms(wired, cell_c) if bus.pole != "between")
    return Network(strings, lead_ohm=leads)


def _substrings(wired: Wired, first: int, cells: Sequence[Diode], joints: Sequence[float]) -> list[Substring]:
    ends = wired.layup.diode_after
    return [
        Substring(
            tuple(cells[first + start : first + end]),
            tuple(joints[first + start : first + end]),
            wired.bypass,
        )
        for start, end in pairwise(ends)
    ]


def _joints_ohm(wired: Wired, cell_c: float) -> tuple[float, ...]:
    tabs = cell_equivalent_ohm(wired.tab, wired.run, cell_c) + solder_ohm(wired.tab, wired.run)
    joining = {bus.after_cell: ohm for bus, ohm in _bus_ohms(wired, cell_c) if bus.pole == "between"}
    return tuple(tabs + joining.get(cell.number, 0.0) for cell in wired.layup.cells)


def _bus_ohms(wired: Wired, cell_c: float) -> tuple[tuple[Bus, float], ...]:
    """Each bus with the one resistance that loses what it loses."""
    runs = zip(wired.layup.buses, bus_runs(wired.layup), strict=True)
    return tuple((bus, bus_equivalent_ohm(wired.bus, run, cell_c)) for bus, run in runs)
