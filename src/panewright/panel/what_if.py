"""What a panel gives if some of its cells are shaded, cracked, or others than planned.

The panel is in full sun at STC, as its own curve is. The heat of a cell is reckoned as for the design's own
worst shade: in the site's record heat, in full sun, in a breeze of 1 m/s. At its greatest power a panel gives
away what it makes; in short circuit it does not, and there a shaded cell is hottest.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from panewright.cell.damage import Cracked, Exchanged, Shaded
from panewright.cell.key_points import KeyPoints
from panewright.cell.model import diode_at
from panewright.circuit.damage import Fault, JointOpen, damaged
from panewright.circuit.hot.heat import Spread, even_c, hot_heat
from panewright.circuit.hot.spot import HotSpot, Working
from panewright.circuit.inside import CellState as CellAtWork
from panewright.circuit.line import LineOf, as_written
from panewright.circuit.look import AtWork, Role, look
from panewright.circuit.network import Network
from panewright.circuit.place import CellAt
from panewright.circuit.trace import Curve
from panewright.layup.layup import PlacedCell
from panewright.panel.design import Design
from panewright.panel.electric.electrical import STC_C, STC_W_M2
from panewright.panel.electric.hot import cooling_of
from panewright.panel.electric.own import OtherCell, own_model
from panewright.panel.electric.watts import wired_of


@dataclass(frozen=True, slots=True)
class CellState:
    """What is different with one cell."""

    shade: float = 0.0  #: share of its light that is missing
    crack: float = 0.0  #: share of its area that is cut off; all of it opens the string
    swapped: OtherCell | None = None  #: another cell lies there

    def __post_init__(self) -> None:
        if not (0 <= self.shade <= 1 and 0 <= self.crack <= 1):
            raise ValueError(f"shade and crack are shares from 0 to 1, got {self}")


@dataclass(frozen=True, slots=True)
class SeenCell:
    """One cell at the panel's greatest power."""

    number: int  #: as on the drawings
    voltage_v: float
    absorbed_w: float  #: negative while it gives
    role: Role


@dataclass(frozen=True, slots=True)
class HotCell:
    """The cell that gets hottest of those that take power in."""

    number: int
    at: Working
    absorbed_w: float  #: at most, where the physics leaves it open
    least_w: float  #: at least
    even_c: float  #: the heat spread over the whole cell: its hottest place is no cooler
    spot_c: float  #: all of it in one spot: no place is hotter


@dataclass(frozen=True, slots=True)
class Seen:
    """The panel as it would be."""

    curve: Curve  #: by rising voltage; from below 0 V where cells are driven backward
    points: KeyPoints
    untouched: KeyPoints  #: of the design
    lost_w: float
    cells: tuple[SeenCell, ...]
    conducting: tuple[int, ...]  #: bypass diodes at greatest power: 1 for D1 of the wiring page
    hottest: HotCell | None  #: at greatest power; None while no cell takes power in
    hottest_shorted: HotCell | None  #: in short circuit


def what_if(design: Design, states: Mapping[int, CellState], line_of: LineOf = as_written) -> Seen:
    """The panel with these cells in these states; the same for the same, whoever solves it.

    Parameters
    ----------
    design : the panel as designed
    states : by the cells' numbers on the drawings, from 1
    line_of : who solves the panel; `circuit.line_compiled.as_compiled` is much quicker once it is loaded
    """
    if strange := sorted(set(states) - {cell.number for cell in design.layup.cells}):
        raise ValueError(f"cells are 1 to {len(design.layup.cells)}, got {strange}")
    untouched = design.electrical.curves[0].points
    seen = look(touched(design, states), driven_a=untouched.isc_a, line_of=line_of)
    return Seen(
        curve=seen.curve,
        points=seen.points,
        untouched=untouched,
        lost_w=untouched.power_w - seen.points.power_w,
        cells=tuple(_cells(design, seen.at_peak)),
        conducting=_diodes(design, seen.at_peak),
        hottest=_hottest(design, states, seen.at_peak, "maximum power"),
        hottest_shorted=_hottest(design, states, seen.shorted, "short circuit"),
    )


def touched(design: Design, states: Mapping[int, CellState]) -> Network:
    """The design's circuit at STC with these cells changed."""
    cells = {cell.number: cell for cell in design.layup.cells}
    faults = (fault for number, state in states.items() for fault in _faults(design, cells[number], state))
    return damaged(design.electrical.network, *faults)


def _faults(design: Design, cell: PlacedCell, state: CellState) -> Iterator[Fault]:
    """First which cell it is, then what befell it."""
    place = at(design, cell.number)
    if state.swapped:
        model = own_model(design.order.cell, strip_of(design, cell.number), state.swapped)
        yield Fault(Exchanged(diode_at(model, wired_of(design).light * STC_W_M2, STC_C)), place)
    if state.crack == 1:
        yield Fault(JointOpen(), place)
    elif state.crack > 0:
        yield Fault(Cracked(state.crack), place)
    if state.shade > 0:
        yield Fault(Shaded(state.shade), place)


def at(design: Design, number: int) -> CellAt:
    """Where in the circuit a cell of the drawings is."""
    string, along = divmod(number - 1, design.layup.plan.in_series)
    return CellAt(string, along + 1)


def strip_of(design: Design, number: int) -> int:
    """Which strip of its wafer a cell is, from 0."""
    return (number - 1) % len(design.electrical.models)


def _number(design: Design, cell: CellAtWork) -> int:
    return cell.string * design.layup.plan.in_series + cell.number


def _cells(design: Design, work: AtWork) -> Iterator[SeenCell]:
    for cell, role in zip(work.cells, work.roles, strict=True):
        yield SeenCell(_number(design, cell), cell.voltage_v, cell.absorbed_w, role)


def _diodes(design: Design, work: AtWork) -> tuple[int, ...]:
    """Numbered string by string, as the wiring page does."""
    substrings = design.layup.plan.substrings
    return tuple(place.string * substrings + place.substring + 1 for place in work.conducting)


def _hottest(
    design: Design, states: Mapping[int, CellState], work: AtWork, working: Working
) -> HotCell | None:
    """Of the cells that take power in, the one that becomes hottest."""
    cooling = cooling_of(design.structural.temperatures)
    found = [
        (even_c(spot, spread, cooling), cell, spot, spread)
        for cell in work.cells
        if cell.most_absorbed_w > 0
        for spot, spread in [_heated(design, states, cell, work.terminal_v, working)]
    ]
    if not found:
        return None
    _, cell, spot, spread = max(found, key=lambda each: each[0])
    heat = hot_heat(spot, spread, cooling)
    return HotCell(
        _number(design, cell), working, spot.absorbed_w, cell.least_absorbed_w, heat.even_c, heat.spot_c
    )


def _heated(
    design: Design,
    states: Mapping[int, CellState],
    cell: CellAtWork,
    terminal_v: float,
    working: Working,
) -> tuple[HotSpot, Spread]:
    """The cell as the heat's own room takes it; what is cut off sheds none of the rest's heat."""
    number = _number(design, cell)
    state = states.get(number, CellState())
    worst_v = min((cell.low_v, cell.high_v), key=lambda volt: volt * cell.current_a)
    spot = HotSpot(
        CellAt(cell.string, cell.number), working, terminal_v, state.shade, worst_v, cell.current_a
    )
    area = design.electrical.models[strip_of(design, number)].area_mm2 * (1 - state.crack)
    wafer = design.layup.cells[0].shape.thickness_mm
    return spot, Spread(area, wafer_mm=wafer)
