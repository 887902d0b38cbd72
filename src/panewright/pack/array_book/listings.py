"""Lists of an array for a workbook and for programs: strings, panels, cables, what to buy, limits, energy."""

from __future__ import annotations

from math import isfinite

from panewright.array.plan.plan import Plan
from panewright.array.protection import Need
from panewright.array.year import CAUSES
from panewright.drawing.listing import Cell, Column, Listing
from panewright.pack.array_book.drawn.schemed import needs_of, places_of, strands_of
from panewright.pack.array_book.limits_told import in_order
from panewright.pack.array_book.saying import MONTHS
from panewright.pack.pages.front import used
from panewright.units import INCH_MM

FOOT_M = 12 * INCH_MM / 1000
_DIGITS = 6
_NO_WARE = {"listed panels", "double insulation", "frames earthed"}  # asked for, and not one thing to buy


def listings(plan: Plan) -> tuple[Listing, ...]:
    """All of them, in the order of the workbook's sheets."""
    return (
        strings_listing(plan),
        panels_listing(plan),
        cables_listing(plan),
        buying_listing(plan),
        needs_listing(plan),
        limits_listing(plan),
        energy_listing(plan),
        *((sizes_listing(plan),) if plan.front else ()),
    )


def strings_listing(plan: Plan) -> Listing:
    """Strings."""
    columns = (
        Column("string"),
        Column("input", kind="count"),
        Column("panels", kind="count"),
        Column("serials, minus end first"),
        Column("open, record cold", "V", "number"),
        Column("at work, record heat", "V", "number"),
        Column("Isc", "A", "number"),
        Column("fuse needed"),
        Column("fuse", "A", "number"),
    )
    rows = tuple(
        (
            strand.sign,
            strand.input + 1,
            len(strand.serials),
            ", ".join(strand.serials),
            None if strand.cold_v is None else round(strand.cold_v, _DIGITS),
            round(strand.hot_v, _DIGITS),
            strand.isc_a,
            "yes" if strand.fused else "no",
            strand.fuse_a,
        )
        for strand in strands_of(plan)
    )
    return Listing("strings", columns, rows)


def panels_listing(plan: Plan) -> Listing:
    """Panels with their places."""
    columns = (
        Column("serial"),
        Column("place in its string"),
        Column("stand"),
        Column("column", kind="count"),
        Column("row", kind="count"),
        Column("known by"),
        Column("rated", "W", "number"),
        Column("Voc", "V", "number"),
        Column("Vmp", "V", "number"),
        Column("Isc", "A", "number"),
    )
    places = places_of(plan)
    rows = tuple(
        (
            placed.serial,
            places.get(number, "not wired"),
            plan.site.stands[placed.stand].name,
            placed.column + 1,
            placed.row + 1,
            placed.known_by,
            placed.member.rated_w,
            placed.plate.voc_v,
            placed.plate.vmp_v,
            placed.plate.isc_a,
        )
        for number, placed in enumerate(plan.panels)
    )
    return Listing("panels", columns, rows)


def cables_listing(plan: Plan) -> Listing:
    """Runs with their sections and losses."""
    us = plan.site.named.units == "us"
    columns = (
        Column("run"),
        Column("what"),
        Column("how many", kind="count"),
        Column("length one way", "ft" if us else "m", "number"),
        Column("section"),
        Column("drop", "V", "number"),
        Column("lost a year", "kWh", "number"),
        Column("worth a year", plan.site.named.currency, "money"),
    )
    rows = tuple(
        (
            f"W{number}",
            leg.title,
            leg.count,
            round(leg.run.one_way_m / (FOOT_M if us else 1.0), 3),
            f"{taken.size.name} {taken.size.metal}"
            if (taken := leg.chosen.taken)
            else "none keeps every rule",
            round(taken.drop_v, _DIGITS) if taken else None,
            round(leg.kwh_a_year, _DIGITS),
            leg.lost_a_year,
        )
        for number, leg in enumerate(plan.legs, 1)
    )
    return Listing("cables", columns, rows)


def buying_listing(plan: Plan) -> Listing:
    """What is bought besides panels: wire, plugs, fuses, things that are needed."""
    us = plan.site.named.units == "us"
    wire = tuple(
        (f"single conductor {name}", round(metres / (FOOT_M if us else 1.0), 1), "ft" if us else "m")
        for name, metres in plan.metres.items()
    )
    sizes = [fuse.size_a for fuse in plan.fuses if fuse.needed]
    fuses = tuple(
        (
            f"string fuse {'of no size on the list' if size is None else f'{size:g} A'}",
            sizes.count(size),
            "each",
        )
        for size in dict.fromkeys(sizes)
    )
    things = tuple(
        _thing(plan, need) for need in needs_of(plan) if need.needed and need.thing not in _NO_WARE
    )
    rows: tuple[tuple[Cell, ...], ...] = (
        *wire,
        ("plug with its socket", plan.connector_pairs, "pair"),
        *fuses,
        *things,
    )
    return Listing("to buy", (Column("thing"), Column("how much", kind="number"), Column("unit")), rows)


def _thing(plan: Plan, need: Need) -> tuple[str, int, str]:
    """A device: one for every string, or one."""
    each = need.thing == "blocking diodes"
    return need.thing, len(plan.fuses) if each else 1, "each"


def needs_listing(plan: Plan) -> Listing:
    """What protects."""
    columns = (Column("thing"), Column("needed"), Column("why"), Column("article"))
    rows = tuple((n.thing, "yes" if n.needed else "no", n.why, n.article) for n in needs_of(plan))
    return Listing("needs", columns, rows)


def limits_listing(plan: Plan) -> Listing:
    """Checks."""
    columns = (
        Column("rule"),
        Column("asked", kind="number"),
        Column("it may bear", kind="number"),
        Column("unit"),
        Column("used"),
        Column("verdict"),
        Column("source"),
    )
    rows = tuple(
        (c.rule, _finite(c.demand), _finite(c.limit), c.unit, used(c), c.verdict, c.source)
        for c in in_order(plan)
    )
    return Listing("limits", columns, rows)


def energy_listing(plan: Plan) -> Listing:
    """Energy by month and what each cause takes."""
    lost, year = plan.year.lost_kwh(), plan.year
    light = year.hours.by_month(year.light_w.sum(axis=1)) / 1000
    series = {"light": light, **{cause: lost[cause] for cause in CAUSES}, "given": year.month_kwh()}
    series |= {"into the pump" if plan.pumped else "behind the controller": plan.controlled.output_kwh}
    if (own := plan.balance) is not None:  # means of the years that the bank goes through
        series |= {"served": own.served_kwh, "not served": own.missing_kwh, "unused": own.unused_kwh}
        series |= {"lost in the bank": own.lost_kwh, "by the generator": own.generator_kwh}
    heads = [Column("month"), *(Column(name, "kWh", "number") for name in series)]
    if plan.pumped is not None:
        series["water"] = plan.pumped.day_m3()
        heads.append(Column("water", "m³/d", "number"))
    rows: tuple[tuple[Cell, ...], ...] = tuple(
        (MONTHS[m], *(round(float(each[m]), _DIGITS) + 0.0 for each in series.values())) for m in range(12)
    )
    return Listing("energy", tuple(heads), rows)


def sizes_listing(plan: Plan) -> Listing:
    """Numbers of strings and sizes of bank, none beaten in cost and service."""
    money = plan.site.named.currency
    shares = (Column(name, "%", "number") for name in ("served", "worst year", "unused"))
    times = (Column("dark", "h/a", "number"), Column("generator", "h/a", "number"))
    heads = (
        *(Column("strings", kind="count"), Column("bank", "Ah", "number"), *shares, *times),
        *(Column("bank lasts", "years", "number"), Column("a kWh", money, "money")),
        Column("to begin with", money, "money"),
    )
    rows: list[tuple[Cell, ...]] = []
    for each in plan.front:
        own = each.served
        told = (100 * own.share, 100 * own.worst_share, 100 * own.unused_share)
        more = (own.dark_hours, own.generator_hours, each.bank_years)
        figures = (round(figure, 3) for figure in (each.bank.capacity_ah, *told, *more))
        rows.append((each.strings, *figures, each.per_kwh, each.cost))
    return Listing("sizes", heads, tuple(rows))


def _finite(value: float | None) -> float | None:
    return value if value is not None and isfinite(value) else None
