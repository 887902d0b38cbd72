"""Every check of a design in one list."""

from __future__ import annotations

from dataclasses import dataclass, replace

from panewright.battery.window import cold_charge_check, overvoltage_check
from panewright.cell.key_points import KeyPoints
from panewright.check import Check
from panewright.circuit.string_count import StringStudy
from panewright.climate.wind.asce_net import height_checks
from panewright.enclosure.bypass import diode_checks
from panewright.enclosure.creepage import clearance_check, needed_mm
from panewright.enclosure.rating import fuse_size_check, system_voltage_check
from panewright.layup.judge import judge_layup, leads_check
from panewright.layup.layup import Layup
from panewright.order.order import Order
from panewright.panel.closed import Closing
from panewright.panel.design import Label
from panewright.panel.electric.electrical import Cells, guarded
from panewright.panel.electric.hot import Hot
from panewright.panel.electric.wiring import Wired
from panewright.panel.holding.cornered import handled
from panewright.panel.holding.field import Weather
from panewright.panel.holding.growing import growth_checks
from panewright.panel.holding.held import Held
from panewright.panel.holding.mounted import slope_checks
from panewright.ribbon.choice import BusRow, TabRow
from panewright.structure.contact import air_of, contact_checks, kept_apart
from panewright.structure.corners.handled import handled_checks
from panewright.structure.drilling.frame_plan import FramePlan
from panewright.structure.handling import bar_check, hole_checks, size_checks
from panewright.structure.mass import Mass, judge_mass
from panewright.structure.mounting.choice import MountingProof
from panewright.structure.rails.seat import beside_metal_mm, seat_under_pane_mm
from panewright.units.sizes_told import sizes_told
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
    mounting: MountingProof
    closing: Closing
    wired: Wired
    points: KeyPoints  #: of the panel at STC
    hot: Hot


def all_checks(proved: Proved, tab: TabRow, bus: BusRow, label: Label) -> tuple[Check, ...]:
    """Every check, room by room, its words in the order's units."""
    units = proved.order.job.units
    found = _all(proved, tab, bus, label)
    if units == "metric":
        return found
    return tuple(
        replace(each, cure=sizes_told(each.cure, units), source=sizes_told(each.source, units))
        for each in found
    )


def _all(proved: Proved, tab: TabRow, bus: BusRow, label: Label) -> tuple[Check, ...]:
    wishes = proved.order.wishes
    return (
        *proved.study.checks,
        *_battery(proved),
        *_cable(proved),
        *tab.checks,
        *bus.checks,
        *_lay(proved, label.system_v),
        *_diodes(proved),
        *proved.hot.checks,
        *_voltages(proved, label.system_v, label.fuse_a),
        *proved.weather.wind.checks,
        *height_checks(proved.order.site, proved.mounting.panel.rise_mm, proved.mounting.panel.reach_mm),
        *proved.weather.snow.checks,
        *(proved.held.loads.drift.checks if proved.held.loads.drift else ()),
        *proved.held.checks,
        *proved.mounting.checks,
        *proved.closing.checks,
        *size_checks(proved.frame, wishes.most_long_mm, wishes.most_short_mm),
        bar_check(proved.frame),
        *hole_checks(proved.frame),
        *growth_checks(proved.order, proved.held, proved.weather),
        *slope_checks(proved.held, proved.mounting),
        judge_mass(proved.mass, wishes.most_mass_kg),
        *_handled(proved),
        *_contacts(proved),
    )


def _handled(proved: Proved) -> tuple[Check, ...]:
    """Corners, and the panel in the hands of those who carry it."""
    return handled_checks(handled(proved.held, proved.frame.joint, proved.mass.total_kg))


def _contacts(proved: Proved) -> tuple[Check, ...]:
    """Metals that touch, in the air of the site."""
    air = air_of(proved.order.site)
    apart = kept_apart(proved.order.parts.isolate, air)
    return contact_checks(proved.held.rail, proved.frame.joint, air, apart=apart)


def _battery(proved: Proved) -> tuple[Check, ...]:
    """The bank's own limits: absorption, and frost for LFP."""
    load, window = proved.order.load, proved.study.window
    over = () if window is None else (overvoltage_check(window),)
    if load.battery is None or load.battery_coldest_c is None:
        return over
    cold = cold_charge_check(load.battery, load.battery_coldest_c)
    return over if cold is None else (*over, cold)


def _cable(proved: Proved) -> tuple[Check, ...]:
    """The run to the controller at full current, warm."""
    cable, points = proved.order.load.cable, proved.points
    if cable is None:
        return ()
    return (drop_check(cable, points.imp_a, points.vmp_v, proved.weather.heat.hot_air_c),)


def _lay(proved: Proved, system_v: float) -> tuple[Check, ...]:
    rim = seat_under_pane_mm(proved.held.rail, proved.held.bead.bead.gap_mm)
    leads = (leads_check(proved.layup),) if proved.order.wishes.leads == "one end" else ()
    return (*judge_layup(proved.layup, needed_mm(system_v), rim, _CREEPAGE), *leads)


def _diodes(proved: Proved) -> tuple[Check, ...]:
    """A shaded cell and its diode at the record cold, when the other cells push hardest."""
    return diode_checks(proved.wired.bypass, guarded(proved.cells, proved.layup.plan.cells_a_diode))


def _voltages(proved: Proved, system_v: float, fuse_a: float) -> tuple[Check, ...]:
    study = proved.study
    cold_v = next(row.cold_voc_v for row in study.rows if row.cells == study.chosen)
    margin, held = proved.layup.plan.side_margin_mm, proved.held
    there = beside_metal_mm(margin, held.rail, held.bead.bead.gap_mm)
    hot_air = proved.weather.heat.hot_air_c
    return (
        system_voltage_check(cold_v, system_v),
        clearance_check(there, system_v),
        fuse_size_check(proved.points.isc_a),
        lead_check(LEAD_MM2, proved.points.isc_a, hot_air),
        fuse_check(LEAD_MM2, fuse_a),
    )
