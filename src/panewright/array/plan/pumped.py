"""A pump at the site's strings: straight, or behind a controller; see `array.driven`."""

from __future__ import annotations

from math import pi

from panewright.array.driven import Driven, driven
from panewright.array.motor import Motor, Pipe, Pump, Turning
from panewright.array.year import Year
from panewright.battery.converter import Converter
from panewright.check import Check
from panewright.order.site.site import Lift, Site

_RPM = 2 * pi / 60


def turning_of(lift: Lift) -> Turning:
    """Motor and pump by what the maker typed; friction as shares of the motor's rated pull."""
    volts_a_turn = (lift.rated_v - lift.rated_a * lift.winding_ohm) / (lift.rpm * _RPM)
    pull_nm = volts_a_turn * lift.rated_a
    motor = Motor(
        lift.rated_v,
        lift.rated_a,
        lift.rpm,
        lift.winding_ohm,
        lift.friction_share * pull_nm,
        lift.start_share * pull_nm,
        lift.most_v,
    )
    pipe = Pipe(lift.lift_m, lift.rubs_m, lift.flow_m3_h)
    pump = Pump(lift.rpm, lift.shut_m, lift.flow_m3_h, lift.head_m, lift.shaft_w, pipe)
    return Turning(motor, pump)


def driven_of(site: Site, year: Year) -> Driven | None:
    """The pump hour by hour; None where there is none."""
    if site.pump is None:
        return None
    box = site.box
    join = (
        None
        if box.straight
        else Converter(box.output_w / site.pump.rated_v, site.pump.rated_v, box.efficiency)
    )
    return driven(year, turning_of(site.pump), join)


def pump_checks(site: Site, pumped: Driven | None) -> tuple[Check, ...]:
    """What its motor bears where nothing stands between it and the strings."""
    if site.pump is None or pumped is None or not site.box.straight:
        return ()
    return (
        Check(
            rule="motor bears what the strings give",
            demand=float(pumped.volt.max()),
            limit=site.pump.most_v,
            unit="V",
            source="the motor's sheet",
            cure="Put fewer panels in series, or a controller between.",
            room="array",
        ),
    )
