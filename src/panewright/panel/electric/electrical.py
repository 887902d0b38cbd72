"""Cells, ribbon and circuit: what the electrical rooms judged, ranked and taken."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from statistics import median

from panewright.cell.fingers import Fingers
from panewright.cell.key_points import KeyPoints, key_points
from panewright.cell.kind import CellKind
from panewright.cell.model import CellModel, diode_at, strip_models
from panewright.cell.shape import area_mm2, strips
from panewright.circuit.hot.guard import HeatLimit
from panewright.circuit.string_count import StringAsk, StringStudy
from panewright.circuit.string_length import study_string
from panewright.climate.heat import Temperatures
from panewright.enclosure.bypass import FIRST_DROP_V, Guarded, most_cells
from panewright.enclosure.junction import TEST_C, Bypassing
from panewright.order.order import Order
from panewright.panel.electric.contacts import fewer_tabs
from panewright.panel.electric.hot import most_cool_cells
from panewright.ribbon.cell import TabbedCell, Worth
from panewright.ribbon.choice import BusedPanel, BusRow, TabRow, judge_buses, judge_tabs
from panewright.ribbon.resistance import TabLoss, TabRun, kg_per_m, tab_loss
from panewright.ribbon.strip import Strip
from panewright.shelf.shelf import Row, Shelf
from panewright.units import MM

STC_W_M2, STC_C = 1000.0, 25.0
PARTS_OVER_CELLS = 4.0
"""A lost watt is made good by that much more panel, room beside the cells by that much more pane. The parts
of the example orders cost 4.4 to 6 times what their cells do; the low side is taken, work is left out."""

Rows = tuple[Row[Strip], ...]


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
    return _cells(order.cell, order.site.record_cold_c)


@lru_cache(maxsize=16)
def _cells(kind: CellKind, cold_c: float) -> Cells:
    """Kept, for sizes of one catalogue have few kinds of cells."""
    models = strip_models(kind)
    least = min(models, key=lambda model: model.area_mm2)
    cold = key_points(diode_at(least, STC_W_M2, cold_c))
    return Cells(models, key_points(diode_at(least, STC_W_M2, STC_C)), cold.voc_v)


def efficiency(cells: Cells) -> float:
    """Of full sunlight on a bare cell, the share it gives as power at STC. [-]"""
    return cells.points.power_w / (STC_W_M2 * cells.least.area_mm2 * MM**2)


def rank_tabs(order: Order, shelf: Shelf, cells: Cells, cell_gap_mm: float) -> tuple[TabRow, ...]:
    """Tabbing ribbons, the best first; the order's own before all where it names one."""
    strip = min(strips(order.cell.shape, order.cell.parts), key=area_mm2)
    run, area = tab_run(order, cell_gap_mm), cells.least.area_mm2
    judged = TabbedCell(
        run=run,
        busbar_width_mm=strip.busbar_width_mm,
        area_mm2=area,
        wafer_mm=strip.thickness_mm,
        imp_a=cells.points.imp_a,
        pmp_w=cells.points.power_w,
        fewer=fewer_tabs(Fingers(run.busbars, area / run.length_mm, run.length_mm)),
    )
    kept, pinned = shelf.tabs, order.parts.tab
    if pinned is None:
        return _judged_tabs(_parts(kept), judged, worth_of(order, shelf, kept))
    own, others = _apart(kept, pinned)
    first = _judged_tabs((pinned,), judged, worth_of(order, shelf, own))
    return first + _judged_tabs(_parts(others), judged, worth_of(order, shelf, others))


@lru_cache(maxsize=16)
def _judged_tabs(strips: tuple[Strip, ...], cell: TabbedCell, worth: Worth | None) -> tuple[TabRow, ...]:
    """Kept, for every round asks it, and sizes of a catalogue have few kinds of cells."""
    return judge_tabs(strips, cell, worth=worth)


def worth_of(order: Order, shelf: Shelf, rows: Rows) -> Worth | None:
    """Prices of ribbon, watts and room as figures of merit; None where one of them is not known."""
    cells, per_metre = _priced_cells(order, shelf), [_metre_price(row) for row in rows]
    known = tuple(price for price in per_metre if price is not None)
    if not cells or not rows or len(known) < len(rows):
        return None
    per_watt = median(float(row.price) / _watts(row) for row in cells)
    per_m2 = median(float(row.price) / (area_mm2(row.part.shape) * MM**2) for row in cells)
    return Worth(known, PARTS_OVER_CELLS * per_watt, (PARTS_OVER_CELLS - 1) * per_m2)


def _priced_cells(order: Order, shelf: Shelf) -> tuple[Row[CellKind], ...]:
    """The order's cell where the shelf has it with a price, else all that have one."""
    priced = tuple(row for row in shelf.cells if row.price > 0)
    return tuple(row for row in priced if row.name == order.cell.name) or priced


def _watts(row: Row[CellKind]) -> float:
    plate = row.part.nameplate
    return plate.imp_a * plate.vmp_v


def _metre_price(row: Row[Strip]) -> float | None:
    """Price of a metre, however it is sold. [the shelf's currency]"""
    metres = {"metre": 1.0, "kilogram": 1 / kg_per_m(row.part)}.get(row.sold_by)
    return None if metres is None else float(row.price) / metres


def _parts(rows: Rows) -> tuple[Strip, ...]:
    return tuple(row.part for row in rows)


def _apart(rows: Rows, pinned: Strip) -> tuple[Rows, Rows]:
    """The order's own where the shelf has it, and what the shelf has beside."""
    own = tuple(row for row in rows if row.part == pinned)
    return own[:1], tuple(row for row in rows if row.part != pinned)


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
    kept, pinned = shelf.buses, order.parts.bus
    if pinned is None:
        return _judged_buses(_parts(kept), panel, worth_of(order, shelf, kept))
    own, others = _apart(kept, pinned)
    first = _judged_buses((pinned,), panel, worth_of(order, shelf, own))
    return first + _judged_buses(_parts(others), panel, worth_of(order, shelf, others))


@lru_cache(maxsize=64)
def _judged_buses(strips: tuple[Strip, ...], panel: BusedPanel, worth: Worth | None) -> tuple[BusRow, ...]:
    """Kept, for every round asks it, and panels that differ in their glass have the same buses."""
    return judge_buses(strips, panel, worth=worth)


def guarded(cells: Cells, count: int) -> Guarded:
    """So many cells under one diode."""
    return Guarded(count, cells.cold_voc_v, cells.least.stc.breakdown_v, cells.points.isc_a)


def bypassing(cells: Cells, count: int, heat: Temperatures, light: float) -> Bypassing:
    """What a diode over so many cells does; its box is as hot as in the test, or as the panel if hotter."""
    hot = key_points(diode_at(cells.least, light * STC_W_M2, heat.hot_cell_c))
    return Bypassing(light * cells.points.isc_a, max(TEST_C, heat.breezy_cell_c), count * hot.voc_v)


def loss_of(tab: Strip, run: TabRun, current_a: float, strings: int) -> TabLoss:
    """What the tabs of one cell lose at the panel's current. [W]"""
    return tab_loss(tab, run, current_a / strings)


def bus_strip(order: Order, shelf: Shelf) -> Strip:
    """The bus ribbon to begin with: the order's, or the first on the shelf."""
    return order.parts.bus or shelf.buses[0].part


def cells_a_diode(cells: Cells, limit: HeatLimit, light: float) -> int:
    """Most cells that one bypass diode may guard: none breaks down in the cold, none gets too hot."""
    bounded = most_cells(cells.cold_voc_v, FIRST_DROP_V, cells.least.stc.breakdown_v)
    return most_cool_cells(bounded, diode_at(cells.least, light * STC_W_M2, STC_C), limit)
