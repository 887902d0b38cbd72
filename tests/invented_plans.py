"""Invented plans of arrays, put together without a year's reckoning: for what draws and tells them.

Limits, fuses, needs and wires are the rooms' own; the year is a bell of light with shares taken off.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cache
from json import dumps
from math import inf

import numpy as np

from invented_panels import Made
from panewright.array.arranged import Arrangement
from panewright.array.doubts import RATINGS
from panewright.array.driven import Driven
from panewright.array.fuses import fuse_checks, string_fuses
from panewright.array.likely import Cause, bounds
from panewright.array.limits import Extremes, Port, input_checks, string_cold_v, thresholds_passed
from panewright.array.member import Member
from panewright.array.plan.plan import Balance, Controlled, Leg, Placed, Plan
from panewright.array.plate import Plate
from panewright.array.protection import Protected, needs
from panewright.array.sized import Choice, Served
from panewright.array.turned import Dull, Season, Turns
from panewright.array.wiring import Input, Row
from panewright.array.worth import Kind, Life, beside_bought
from panewright.array.year import Year
from panewright.battery.bank import Bank
from panewright.battery.load import Battery, Controller
from panewright.battery.window import charge_window
from panewright.order.site import site as s
from panewright.sky.hours import Hours
from panewright.sky.made.clear_year import clear_year
from panewright.sky.place import Place, Plane
from panewright.sky.shadow.pane import Pane
from panewright.sky.shadow.shade import Surroundings
from panewright.wire.chosen import Sold, Worth, choose_run
from panewright.wire.heated import Flow
from panewright.wire.laid import Laid
from panewright.wire.lengths import Laying, connector_pairs, metres_to_buy
from panewright.wire.rules import Run, greatest_of_panels_a
from panewright.wire.sizes import GAUGES, METRIC

WIDE_MM, HIGH_MM, GAP_MM = 670.0, 1480.0, 20.0
CELLS = tuple((0.02 + 0.16 * (k // 9), 0.02 + 0.16 * (k % 9)) for k in range(36))
SHAPES = tuple((x, y, x + 0.156, y + 0.156) for x, y in CELLS)
LABEL = RATINGS["label"]
CAUSES = (
    Cause("weather from year to year", 0.05, "Years differ; invented."),
    Cause("dirt", 0.02, "Invented."),
)
PUMP = s.Lift(24.0, 8.0, 2800.0, 0.25, 0.05, 0.12, 40.0, 3.0, 12.0, 20.0, 150.0, 6.0, 1.5)
_HALVES = (Season((4, 5, 6, 7, 8, 9), 17.0, 160.0), Season((10, 11, 12, 1, 2, 3), 56.0, 110.0))
TURNS = Turns(36.0, 181.0, 266.0, 262.0, 35.0, 265.0, _HALVES, (), Dull(62.0, 180.0, 0.28, 0.22, 240.0))
YEAR_SHARES = (1.0, 0.97, 0.95, 0.88, 0.84, 0.82, 0.81)  # light to the inputs


@dataclass(frozen=True)
class Invented:
    """What is wanted of one."""

    strings: int = 2
    in_series: int = 2
    inputs: int = 1
    family: str = "IEC"
    units: str = "metric"
    paper: str = "A4"
    on: str = "dwelling"
    kind: str = "mppt"
    bank: bool = True
    loads: int = 2
    generator: bool = True
    columns: int = 4
    stands: int = 1
    spare: int = 0
    fuse_a: float = 15.0
    serial: str = "IB-{:04d}"
    most_v: float = 150.0
    coldest_c: float = -18.0
    known: bool = True  #: the panels' coefficients
    name: str = "Boathouse"
    currency: str = "EUR"


@cache
def _hours() -> Hours:
    return clear_year(Place(47.6, 9.4, 400.0), (0, 1, 5, 9, 14, 17, 19, 19, 15, 10, 4, 1), 0.7)


@cache
def _law() -> object:
    return Made(36, 2, scatter=0.0).law()


@cache
def made(asked: Invented) -> Plan:
    """The plan; kept, for many tests ask for one."""
    count = asked.strings * asked.in_series + asked.spare
    panels = tuple(_placed(asked, n) for n in range(count))
    rows = [
        Row(tuple(range(k * asked.in_series, (k + 1) * asked.in_series)), 0.1) for k in range(asked.strings)
    ]
    inputs = tuple(
        Input(tuple(row for k, row in enumerate(rows) if k * asked.inputs // asked.strings == n), 0.05)
        for n in range(asked.inputs)
    )
    site = _site(asked, panels)
    strings = [tuple(panels[p].plate for p in row.panels) for row in rows]
    fuses = string_fuses(strings, asked.family, 30.0, battery_feeds_back=asked.kind == "direct")
    colds = [string_cold_v(string, asked.coldest_c) for string in strings]
    cold = None if None in colds else max(colds)
    extremes = Extremes(asked.family, asked.coldest_c, 68.0, site.rules.dwelling, site.rules.on_building)
    bank = site.bank or _bank()
    window = charge_window(bank.battery, bank.bank_c)
    port = Port(site.box.controller, window, site.box.input_a, bank.battery.nominal_v, site.box.takes_v)
    checks = (*input_checks(strings, port, extremes), *fuse_checks(fuses, cold or 0.0))
    legs = tuple(_legs(asked, rows, strings))
    year = _year(asked, panels, inputs)
    protected = Protected(
        asked.family, asked.strings, cold or 0.0, site.rules.on_building, True, any(f.needed for f in fuses)
    )
    layings = [
        Laying(leg.chosen.taken.size, leg.run.one_way_m, leg.count) for leg in legs if leg.chosen.taken
    ]
    lost = year.panel_w.sum() / 1000 - year.kwh
    balance = _balance(year) if asked.bank and asked.loads else None
    found = Arrangement(
        tuple(tuple(row.panels for row in each.rows) for each in inputs),
        tuple(range(count - asked.spare, count)),
        year.kwh,
        year.kwh * 1.02,
    )
    return Plan(
        site=site,
        panels=panels,
        inputs=inputs,
        left_out=found.left_out,
        arrangement=found,
        best=None,
        kept_share=0.981,
        weighed_share=0.983,
        year=year,
        checks=checks,
        fuses=fuses,
        needs=needs(protected),
        thresholds=thresholds_passed(cold or 0.0, asked.family),
        cold_v=cold,
        hot_cell_c=68.0,
        legs=legs,
        metres=metres_to_buy(layings),
        connector_pairs=connector_pairs(len(row.panels) for row in rows),
        controlled=Controlled(year.month_kwh(), 0.96 * year.month_kwh(), 0.0 * year.month_kwh()),
        pumped=None,
        balance=balance,
        front=_front() if balance else (),
        per_kwh=Decimal("0.3127"),
        capital=Decimal("4120.00"),
        wire_kwh=float(lost),
        wire_lost_a_year=Decimal("6.10"),
        beside=beside_bought(
            Kind(Decimal("0.62"), Life(20, 0.03)), Kind(Decimal("0.45"), Life(30, 0.03)), year.kwh / 600.0
        ),
        likely=bounds(year.kwh, CAUSES),
        turns=TURNS,
        cautions=("Batteries give off gas that explodes.",),
        said=("The sky is a clear one, thinned to seven tenths.",),
    )


def pumping(asked: Invented) -> Plan:
    """The plan with a pump straight at its strings, which gives a cubic metre in every hour of light."""
    plan = made(replace(asked, bank=False, loads=0))
    given = plan.year.input_w.sum(axis=1)
    lit = given > 0
    volt, none = 20.0 * lit, np.zeros(8760, dtype=bool)
    pumped = Driven(plan.year.hours, volt, 0.7 * given / 20.0, 290.0 * lit, 1.0 * lit, none, none, given)
    site = replace(plan.site, pump=PUMP, box=replace(plan.site.box, straight=True))
    return replace(plan, site=site, pumped=pumped)


def _plate(asked: Invented, n: int) -> Plate:
    return Plate(
        asked.serial.format(n),
        22.4 + 0.01 * n,
        18.2,
        8.55 + 0.002 * n,
        8.0,
        asked.fuse_a,
        1000.0,
        -0.0032 if asked.known else None,
    )


def _placed(asked: Invented, n: int) -> Placed:
    stand = n % asked.stands
    at = n // asked.stands
    column, row = at % asked.columns, at // asked.columns
    left, up = column * (WIDE_MM + GAP_MM), row * (HIGH_MM + GAP_MM)
    plane = Plane(30.0, 170.0)
    pane = Pane((left / 1000, 0.0, 3.0), plane, SHAPES)
    plate = _plate(asked, n)
    member = Member(plate.serial, _law(), pane, 145.6)  # type: ignore[arg-type]
    known = ("measured on 2026-09-14", "built record", "design of Jetty", "label")[n % 4]
    return Placed(plate.serial, plate, member, known, stand, column, row, WIDE_MM, HIGH_MM, left, up, LABEL)


def _bank() -> Bank:
    return Bank(Battery("agm", 24.0), 200.0, 12.0)


def _site(asked: Invented, panels: tuple[Placed, ...]) -> s.Site:
    way = s.Way(9.0, "air", True, 2)
    draws = tuple(
        s.Draw(name, tuple(float(30 + 40 * (h > 17)) for h in range(24)), (True,) * 12)
        for name in ("lamps and pump for the bilge", "cool box", "radio", "tools")[: asked.loads]
    )
    wished = tuple(s.Wished(p.serial, s.BySerial(p.serial), p.stand, p.column, p.row, 0.0) for p in panels)
    return s.Site(
        named=s.Named(asked.name, asked.units, asked.currency, asked.paper),  # type: ignore[arg-type]
        place=Place(47.6, 9.4, 400.0),
        zone_h=1.0,
        rules=s.Rules(asked.family, asked.coldest_c, 36.0, asked.on),  # type: ignore[arg-type]
        weather=s.OfClearness(0.7, (0, 1, 5, 9, 14, 17, 19, 19, 15, 10, 4, 1)),
        stands=tuple(_stand(asked, n) for n in range(asked.stands)),
        panels=wished,
        strings=(),
        box=_box(asked),
        bank=_bank() if asked.bank else None,
        draws=draws,
        generator=s.Generator(800.0, 0.4, 0.8, Decimal("1.20")) if asked.generator and asked.bank else None,
        ways=s.Ways(way, s.Way(14.0, "conduit"), s.Way(1.5, "clipped")),
        money=s.Money(
            Decimal("0.62"), Decimal("0.45"), 30, Decimal(80), Decimal(160), Decimal(400), Decimal(20),
            Decimal("0.20"), Decimal("0.15"), Decimal("0.60"), 25, 0.03,
        ),
        sizes=s.Sizes((), None, (0.9, 0.98)),
        around=Surroundings(),
        text=f"[array]\nname = {dumps(asked.name)}\n# {asked!r}\n",
    )  # fmt: skip


def _stand(asked: Invented, number: int) -> s.Stand:
    plane, corner = Plane(30.0, 170.0), (0.0, 0.0, 3.0)
    return s.Stand(f"roof {number + 1}", plane, "close to roof", corner, asked.columns, GAP_MM)


def _box(asked: Invented) -> s.Box:
    return s.Box(
        Controller(asked.kind, asked.most_v, 0.3, 5.0),  # type: ignore[arg-type]
        asked.inputs,
        least_v=20.0,
        output_a=40.0 if asked.bank else inf,
        output_w=960.0,
        input_a=60.0,
        takes_v=(12.0, 24.0),
        efficiency=((0.05, 0.9), (0.2, 0.965), (1.0, 0.955)),
        own_w=1.0,
    )


def _legs(asked: Invented, rows: list[Row], strings: list[tuple[Plate, ...]]):  # type: ignore[no-untyped-def]
    isc = max(plate.isc_a for string in strings for plate in string)
    volts = sum(plate.vmp_v for plate in strings[0])
    many = -(-asked.strings // asked.inputs)
    whole = isc * asked.strings
    kinds = [
        ("strings to where they meet", len(rows), 9.0, greatest_of_panels_a(isc), 8.0, volts, None),
        (
            "down to the controller",
            asked.inputs,
            14.0,
            greatest_of_panels_a(many * isc),
            many * 8.0,
            volts,
            None,
        ),
    ]
    if asked.bank:
        kinds.append(("controller to battery", 1, 1.5, 40.0, 36.0, 26.0, 50.0))
    sold = [Sold(size, 0.2 + 0.15 * size.area_mm2) for size in (METRIC if asked.family == "IEC" else GAUGES)]
    for name, count, length, greatest, working, at_v, fuse in kinds:
        run = Run(length, greatest, min(working, whole), at_v, fuse)
        laid = Laid(asked.family, "air", 36.0, beside=2)  # type: ignore[arg-type]
        flow = Flow((6.0,), 4000.0, 28.0)
        chosen = choose_run(run, laid, flow, sold, Worth(0.60, 14.1))
        kwh = count * chosen.taken.kwh_a_year if chosen.taken else 0.0
        yield Leg(name, count, run, laid, flow, chosen, kwh, Decimal(f"{0.6 * kwh:.4f}"))


def _year(asked: Invented, panels: tuple[Placed, ...], inputs: tuple[Input, ...]) -> Year:
    hours = _hours()
    light = hours.level_w_m2[:, None] * np.array([p.member.rated_w for p in panels]) / 1000
    light[:, len(panels) - asked.spare :] = 0.0
    chain = [light * share for share in YEAR_SHARES]
    each = [[p for row in one.rows for p in row.panels] for one in inputs]
    given = np.stack([chain[-1][:, numbers].sum(axis=1) for numbers in each], axis=1)
    held = np.zeros((len(inputs), 0))
    return Year(hours, *chain[:-1], given, held, np.zeros((8760, len(inputs), 0)), 20000)


def _balance(year: Year) -> Balance:
    month = year.month_kwh()
    light = np.maximum(0.0, np.cos(np.arange(8760) / 8760 * 2 * np.pi))
    charge = 0.95 - 0.35 * light - 0.05 * np.cos(np.arange(8760) / 24 * 2 * np.pi)
    return Balance(
        served_share=0.984,
        worst_share=0.962,
        dark_hours=131.0,
        generator_hours=22.0,
        bank_years=6.4,
        years=20,
        offered_kwh=month,
        used_kwh=0.8 * month,
        unused_kwh=0.2 * month,
        served_kwh=0.7 * month,
        missing_kwh=0.01 * month,
        generator_kwh=0.5 + 0.0 * month,
        lost_kwh=0.1 * month,
        charge=charge,
        way_kwh={"converter": 0.04 * month, "held back": 0.15 * month},
    )


_SIZES = (
    (1, 120.0, 0.91, "0.252", "2300"),
    (2, 180.0, 0.962, "0.291", "3300"),
    (2, 240.0, 0.983, "0.313", "4100"),
    (3, 300.0, 0.994, "0.371", "5600"),
    (4, 420.0, 0.9991, "0.498", "8100"),
)


def _front() -> tuple[Choice, ...]:
    return tuple(
        Choice(
            strings,
            replace(_bank(), capacity_ah=ah),
            Served(share, share - 0.03, 300 - 250 * share, 20, 0.2, 700, 9e3),
            6.5,
            Decimal(cost),
            Decimal(capital),
        )
        for strings, ah, share, cost, capital in _SIZES
    )
