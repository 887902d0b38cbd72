"""An array's lists: strings, runs, what to buy, months, sizes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from panewright.drawing.listing import Column, Listing

if TYPE_CHECKING:
    from panewright.array.plan.plan import Plan
    from panewright.drawing.listing import Cell

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def lists(plan: Plan) -> tuple[Listing, ...]:
    """All of them; sizes only where a bank is looked for."""
    found = (_strings(plan), _runs(plan), _to_buy(plan), _months(plan))
    return (*found, _sizes(plan)) if plan.front else found


def _number(value: float) -> float:
    return float(f"{value:.5g}")


def _strings(plan: Plan) -> Listing:
    heads = (
        *(Column("input", kind="count"), Column("string", kind="count"), Column("place", kind="count")),
        *(Column("panel"), Column("known by"), Column("stand"), Column("column", kind="count")),
        *(Column("row", kind="count"), Column("power", "W", "number"), Column("Voc", "V", "number")),
        *(Column("Isc", "A", "number"), Column("fuse", "A", "number")),
    )
    return Listing("strings", heads, tuple(_in_strings(plan)))


def _in_strings(plan: Plan) -> Iterator[tuple[Cell, ...]]:
    """Every panel, string by string; those in no string last."""
    string = 0
    for number, each in enumerate(plan.inputs, 1):
        for row in each.rows:
            fuse = plan.fuses[string]
            string += 1
            size = fuse.size_a if fuse.needed else None
            for place, p in enumerate(row.panels, 1):
                yield (number, string, place, *_panel(plan, p), size)
    for p in plan.left_out:
        yield (None, None, None, *_panel(plan, p), None)


def _panel(plan: Plan, p: int) -> tuple[Cell, ...]:
    panel = plan.panels[p]
    plate, stand = panel.plate, plan.site.stands[panel.stand].name
    figures = (_number(each) for each in (panel.member.rated_w, plate.voc_v, plate.isc_a))
    return (panel.serial, panel.known_by, stand, panel.column + 1, panel.row + 1, *figures)


def _runs(plan: Plan) -> Listing:
    heads = (
        *(Column("run"), Column("count", kind="count"), Column("one way", "m", "number"), Column("section")),
        *(Column("greatest current", "A", "number"), Column("drop", "V", "number")),
        *(Column("lost a year", "kWh", "number"), Column("worth a year", plan.site.named.currency, "money")),
    )
    rows = []
    for leg in plan.legs:
        option = leg.chosen.taken or leg.chosen.looked_at[-1]
        section = f"{option.size.name} {option.size.metal}"
        figures = (_number(leg.run.greatest_a), _number(option.drop_v), _number(leg.kwh_a_year))
        rows.append((leg.name, leg.count, leg.run.one_way_m, section, *figures, leg.lost_a_year))
    return Listing("runs", heads, tuple(rows))


def _to_buy(plan: Plan) -> Listing:
    heads = (Column("what"), Column("how much", kind="number"), Column("unit"))
    rows: list[tuple[Cell, ...]] = [(f"single conductor, {name}", m, "m") for name, m in plan.metres.items()]
    rows.append(("connectors, plug and socket", plan.connector_pairs, "pairs"))
    sizes = sorted({fuse.size_a for fuse in plan.fuses if fuse.needed and fuse.size_a})
    for size in sizes:
        count = sum(fuse.needed and fuse.size_a == size for fuse in plan.fuses)
        rows.append((f"string fuse, {size:g} A, with holder", count, "pieces"))
    rows += [(need.thing, 1, "as asked") for need in plan.needs if need.needed]
    return Listing("to-buy", heads, tuple(rows))


def _months(plan: Plan) -> Listing:
    """Energy by month, with what each cause takes."""
    lost = plan.year.lost_kwh()
    columns = {"at the inputs": plan.year.month_kwh(), **{f"lost to {c}": row for c, row in lost.items()}}
    columns |= {"behind the controller": plan.controlled.output_kwh}
    if plan.balance is not None:
        own = plan.balance
        columns |= {
            "served": own.served_kwh,
            "not served": own.missing_kwh,
            "unused": own.unused_kwh,
            "lost in the bank": own.lost_kwh,
            "by the generator": own.generator_kwh,
        }
    heads = (Column("month"), *(Column(name, "kWh", "number") for name in columns))
    if plan.pumped is not None:
        columns["water"] = plan.pumped.day_m3()
        heads = (*heads, Column("water", "m³/d", "number"))
    rows: list[tuple[Cell, ...]] = [
        (month, *(_number(float(row[m])) for row in columns.values())) for m, month in enumerate(MONTHS)
    ]
    return Listing("months", heads, tuple(rows))


def _sizes(plan: Plan) -> Listing:
    money = plan.site.named.currency
    heads = (
        *(Column("strings", kind="count"), Column("bank", "Ah", "number"), Column("served", "%", "number")),
        *(
            Column("worst year", "%", "number"),
            Column("dark", "h/a", "number"),
            Column("unused", "%", "number"),
        ),
        *(Column("generator", "h/a", "number"), Column("bank lasts", "years", "number")),
        *(Column("a kWh", money, "money"), Column("to begin with", money, "money")),
    )
    rows = []
    for each in plan.front:
        own = each.served
        shares = (_number(100 * own.share), _number(100 * own.worst_share), _number(own.dark_hours))
        more = (_number(100 * own.unused_share), _number(own.generator_hours), _number(each.bank_years))
        rows.append((each.strings, _number(each.bank.capacity_ah), *shares, *more, each.per_kwh, each.cost))
    return Listing("sizes", heads, tuple(rows))
