"""Cells, ribbon and circuit: what the electrical rooms judged, ranked and taken."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.cell.key_points import KeyPoints, key_points
from panewright.cell.model import CellModel, diode_at, strip_models
from panewright.cell.shape import area_mm2, strips
from panewright.circuit.string_count import StringAsk, StringStudy
from panewright.circuit.string_length import study_string
from panewright.climate.heat import Temperatures
from panewright.enclosure.bypass import FIRST_DROP_V, Guarded, most_cells
from panewright.order.order import Order
from panewright.ribbon.choice import BusedPanel, BusRow, TabbedCell, TabRow, judge_buses, judge_tabs
from panewright.ribbon.resistance import TabLoss, TabRun, tab_loss
from panewright.ribbon.strip import Strip
from panewright.shelf.shelf import Shelf

STC_W_M2, STC_C = 1000.0, 25.0


@dataclass(frozen=True, slots=True)
class Cells:
    """The strips that will lie on the pane."""

    models: tuple[CellModel, ...]
    points: KeyPoints  #: of the strip with the least area, at STC, bare
    cold_voc_v: float  #: of that strip at the record cold in full sun

    @property
    def least(self) -> CellModel:
        """The strip that limits a string."""
        return min(self.models, key=lambda model: model.area_mm2)


def read_cells(order: Order) -> Cells:
    """Models of all strips of the order's cell."""
    models = strip_models(order.cell)
    least = min(models, key=lambda model: model.area_mm2)
    cold = key_points(diode_at(least, STC_W_M2, order.site.record_cold_c))
    return Cells(models, key_points(diode_at(least, STC_W_M2, STC_C)), cold.voc_v)


def rank_tabs(order: Order, shelf: Shelf, cells: Cells, cell_gap_mm: float) -> tuple[TabRow, ...]:
    """Tabbing ribbons, the best first; the order's own before all where it names one."""
    strip = min(strips(order.cell.shape, order.cell.parts), key=area_mm2)
    judged = TabbedCell(
        run=tab_run(order, cell_gap_mm),
        busbar_width_mm=strip.busbar_width_mm,
        area_mm2=cells.least.area_mm2,
        wafer_mm=strip.thickness_mm,
        imp_a=cells.points.imp_a,
        pmp_w=cells.points.power_w,
    )
    kept, pinned = tuple(row.part for row in shelf.tabs), order.parts.tab
    if pinned is None:
        return judge_tabs(kept, judged)
    return judge_tabs((pinned,), judged) + judge_tabs(_others(kept, pinned), judged)


def _others(kept: tuple[Strip, ...], pinned: Strip) -> tuple[Strip, ...]:
    """What the shelf has beside the order's own."""
    return tuple(strip for strip in kept if strip != pinned)


def tab_run(order: Order, cell_gap_mm: float) -> TabRun:
    """The way of the tabs that serve one cell."""
    shape = order.cell.shape
    return TabRun(shape.busbars, shape.length_mm / order.cell.parts, cell_gap_mm)


def ask_for(
    order: Order, cells: Cells, heat: Temperatures, tab: TabRow, light: float, bus_ohm: float
) -> StringAsk:
    """What the string must do, cells behind their cover."""
    load = order.load
    return StringAsk(
        model=cells.least,
        hot_cell_c=heat.hot_cell_c,
        running_cell_c=heat.running_cell_c,
        cold_cell_c=order.site.record_cold_c,
        battery=load.battery,
        controller=load.controller,
        cable=load.cable,
        blocking_drop_v=load.blocking_drop_v,
        tab_ohm_per_cell=tab.equivalent_ohm,
        extra_ohm=bus_ohm,
        pinned_in_series=order.wishes.in_series,
        strings=order.wishes.strings or 1,
        light=light,
        battery_c=load.battery_c,
    )


def study(ask: StringAsk) -> StringStudy:
    """The count of cells in series and why."""
    return study_string(ask)


def rank_buses(order: Order, shelf: Shelf, panel: BusedPanel) -> tuple[BusRow, ...]:
    """Bus ribbons, the best first; the order's own before all where it names one."""
    kept, pinned = tuple(row.part for row in shelf.buses), order.parts.bus
    if pinned is None:
        return judge_buses(kept, panel)
    return judge_buses((pinned,), panel) + judge_buses(_others(kept, pinned), panel)


def guarded(cells: Cells, count: int) -> Guarded:
    """So many cells under one diode."""
    return Guarded(count, cells.cold_voc_v, cells.least.stc.breakdown_v, cells.points.isc_a)


def loss_of(tab: Strip, run: TabRun, current_a: float, strings: int) -> TabLoss:
    """What the tabs of one cell lose at the panel's current. [W]"""
    return tab_loss(tab, run, current_a / strings)


def bus_strip(order: Order, shelf: Shelf) -> Strip:
    """The bus ribbon to begin with: the order's, or the first on the shelf."""
    return order.parts.bus or shelf.buses[0].part


def cells_a_diode(cells: Cells) -> int:
    """Most cells that one bypass diode may guard."""
    return most_cells(cells.cold_voc_v, FIRST_DROP_V, cells.least.stc.breakdown_v)
