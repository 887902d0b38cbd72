"""Every check of a design in one list."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.battery.window import overvoltage_check
from panewright.cell.key_points import KeyPoints, key_points
from panewright.cell.model import diode_at
from panewright.check import Check
from panewright.circuit.string_count import StringStudy
from panewright.enclosure.bypass import bare_string_check, forward_v, guard_checks, rating_checks
from panewright.enclosure.creepage import clearance_check, needed_mm
from panewright.enclosure.encapsulant import Pour
from panewright.enclosure.rating import fuse_size_check, system_voltage_check
from panewright.layup.judge import judge_layup
from panewright.layup.layup import Layup
from panewright.order.order import Order
from panewright.panel.design import Label
from panewright.panel.electrical import STC_W_M2, Cells
from panewright.panel.structural import Held, Weather
from panewright.panel.wiring import Wired
from panewright.ribbon.choice import BusRow, TabRow
from panewright.structure.frame_plan import FramePlan
from panewright.structure.handling import bar_check, size_checks
from panewright.structure.mass import Mass, judge_mass
from panewright.structure.seat import seat_under_pane_mm
from panewright.wire.ampacity import fuse_check, lead_check
from panewright.wire.drop import drop_check

_CREEPAGE = "IEC 60664-1 table F.4, pollution degree 2, doubled (reinforced)"
LEAD_MM2 = 4.0  #: the leads of the junction box


@dataclass(frozen=True, slots=True)
class Proved:
    """What the checks are held against."""

    order: Order
    weather: Weather
    cells: Cells
    study: StringStudy
    held: Held
    layup: Layup
    frame: FramePlan
    mass: Mass
    pour: Pour | None
    wired: Wired
    points: KeyPoints  #: of the panel at STC


def all_checks(proved: Proved, tab: TabRow, bus: BusRow, label: Label) -> tuple[Check, ...]:
    """Every check, room by room."""
    wishes = proved.order.wishes
    return (
        *proved.study.checks,
        *((overvoltage_check(proved.study.window),) if proved.study.window else ()),
        *_cable(proved),
        *tab.checks,
        *bus.checks,
        *_lay(proved, label.system_v),
        *_diodes(proved),
        *_voltages(proved, label.system_v, label.fuse_a),
        *proved.weather.wind.checks,
        *proved.weather.snow.checks,
        *proved.held.checks,
        *(proved.pour.checks if proved.pour else ()),
        *size_checks(proved.frame, wishes.most_long_mm, wishes.most_short_mm),
        bar_check(proved.frame),
        judge_mass(proved.mass, wishes.most_mass_kg),
    )


def _cable(proved: Proved) -> tuple[Check, ...]:
    """The run to the controller at full current, warm."""
    cable, points = proved.order.load.cable, proved.points
    if cable is None:
        return ()
    return (drop_check(cable, points.imp_a, points.vmp_v, proved.weather.heat.hot_air_c),)


def _lay(proved: Proved, system_v: float) -> tuple[Check, ...]:
    rim = seat_under_pane_mm(proved.held.rail, proved.held.bead.bead.gap_mm)
    return judge_layup(proved.layup, needed_mm(system_v), rim, _CREEPAGE)


def _diodes(proved: Proved) -> tuple[Check, ...]:
    """A shaded cell among cells at STC; the diode's own blocking at the record cold."""
    plan, bypass = proved.layup.plan, proved.wired.bypass
    cold = diode_at(proved.cells.least, STC_W_M2, proved.order.site.record_cold_c)
    cells = plan.in_series // plan.substrings
    cold_v, voc = key_points(cold).voc_v, proved.cells.points.voc_v
    breakdown = proved.order.cell.breakdown_v
    if bypass is None:
        return (bare_string_check(plan.in_series, voc, breakdown),)
    drop = forward_v(bypass, proved.points.isc_a / plan.strings)
    guards = guard_checks(cells, voc, drop, breakdown)
    return (*guards, *rating_checks(bypass, proved.points.isc_a / plan.strings, cells * cold_v))


def _voltages(proved: Proved, system_v: float, fuse_a: float) -> tuple[Check, ...]:
    study = proved.study
    cold_v = next(row.cold_voc_v for row in study.rows if row.cells == study.chosen)
    there = proved.layup.plan.side_margin_mm - seat_under_pane_mm(
        proved.held.rail, proved.held.bead.bead.gap_mm
    )
    hot_air = proved.weather.heat.hot_air_c
    return (
        system_voltage_check(cold_v, system_v),
        clearance_check(there, system_v),
        fuse_size_check(proved.points.isc_a),
        lead_check(LEAD_MM2, proved.points.isc_a, hot_air),
        fuse_check(LEAD_MM2, fuse_a),
    )
