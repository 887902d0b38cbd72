"""An array's lists beside those of its book: what becomes of the energy by month, and sizes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from panewright.drawing.listing import Column, Listing

if TYPE_CHECKING:
    from panewright.array.plan.plan import Plan
    from panewright.drawing.listing import Cell

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def lists(plan: Plan) -> tuple[Listing, ...]:
    """Both; sizes only where a bank is looked for."""
    return (_months(plan), _sizes(plan)) if plan.front else (_months(plan),)


def _number(value: float) -> float:
    return float(f"{value:.5g}")


def _months(plan: Plan) -> Listing:
    """From the inputs on, month by month."""
    columns = {"at the inputs": plan.year.month_kwh(), "behind the controller": plan.controlled.output_kwh}
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
