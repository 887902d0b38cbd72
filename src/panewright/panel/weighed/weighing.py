"""What was weighed for each choice the order left open, and beside each that it pins."""

from __future__ import annotations

from typing import TypeVar

from panewright.check import Check
from panewright.circuit.string_count import CountRow, StringStudy
from panewright.layup.rank import Ranked
from panewright.order.order import Order
from panewright.panel.design import Weighed
from panewright.panel.holding.held import Held
from panewright.panel.weighed.grid import Column, Grid, ordered, sentences
from panewright.panel.weighed.weighing_frame import weighed_bead, weighed_pane, weighed_rail
from panewright.ribbon.choice import BusRow, TabRow

_MOST_ROWS = 8


def weighed(
    order: Order, study: StringStudy, held: Held, tabs: tuple[TabRow, ...], buses: tuple[BusRow, ...]
) -> tuple[Weighed, ...]:
    """Every choice, in the order in which the maker meets it."""
    return (
        _string(order, study),
        _layout(order, held),
        _tab(order, tabs),
        _bus(order, buses),
        weighed_pane(order, held),
        weighed_rail(order, held),
        weighed_bead(order, held),
    )


_COUNT: tuple[Column[CountRow], ...] = (
    Column("Cells", "cells", lambda row: row.cells),
    Column("Hot, at work", "hot_vmp_v", lambda row: row.hot_vmp_v, "V"),
    Column("Needed then", "needed_v", lambda row: row.needed_v, "V"),
    Column("Cold, open", "cold_voc_v", lambda row: row.cold_voc_v, "V"),
    Column("Controller bears", "most_v", lambda row: row.most_v, "V"),
    Column("Into battery", "battery_a", lambda row: row.battery_a, "A"),
    Column("", "battery_w", lambda row: row.battery_w),
    Column("Verdict", "verdict", lambda row: row.verdict),
)


def _string(order: Order, study: StringStudy) -> Weighed:
    rows = study.rows if study.window else ()
    pinned = ", as ordered" if order.wishes.in_series else ""
    taken = f"{study.chosen} cells in series{pinned}"
    grid = Grid(_COUNT, rows, rows)
    return grid.weighed("How many cells in series?", taken, study.reason, order.job.units)


_LAYOUT: tuple[Column[Ranked], ...] = (
    Column("Points", "points", lambda row: row.score, "-"),
    Column("", "columns", lambda row: row.plan.columns),
    Column("", "rows", lambda row: row.plan.rows),
    Column("", "bypass_diodes", lambda row: row.plan.substrings * row.plan.strings),
    Column("", "pane_long_mm", lambda row: row.facts.long_mm),
    Column("", "pane_short_mm", lambda row: row.facts.short_mm),
    Column("", "silicon_share", lambda row: row.facts.silicon_share),
    Column("Lay-out", "words", lambda row: row.words),
    Column("Lost for", "lost_for", lambda row: row.lost),
)


def _layout(order: Order, held: Held) -> Weighed:
    best, wishes = held.ranked[0], order.wishes
    pins = (
        ("columns", wishes.columns),
        ("rows", wishes.rows),
        ("bypass diodes", wishes.substrings),
        ("gap between cells", wishes.cell_gap_mm),
        ("gap between columns", wishes.string_gap_mm),
        ("margin", wishes.margin_mm),
    )
    among = ordered(pins)
    if len(held.ranked) > 1 or not among:
        rest = "Points are taken off for what a lay-out costs at the bench; the highest is taken."
    else:
        rest = "No other lay-out has these."
    if not best.within_limits:
        rest += " None keeps to the limits of the order."
    columns = "column" if best.plan.columns == 1 else "columns"
    taken = f"{best.plan.columns} {columns} of {best.plan.rows}"
    grid = Grid(_LAYOUT, held.ranked, held.ranked[:_MOST_ROWS])
    return grid.weighed("How are they laid?", taken, sentences(among, rest), order.job.units)


def against(checks: tuple[Check, ...]) -> str:
    """The rules that fail."""
    return "; ".join(check.rule for check in checks if not check.passed)


_TABS: tuple[Column[TabRow], ...] = (
    Column("Ribbon", "ribbon", lambda row: row.strip.name),
    Column("Resistance, a cell", "resistance_w", lambda row: row.resistance_w, "W", "mW", 1000.0),
    Column("Shadow, a cell", "shadow_w", lambda row: row.shadow_w, "W", "mW", 1000.0),
    Column("Together", "total_w", lambda row: row.total_w, "W", "mW", 1000.0),
    Column("", "bow_mm", lambda row: row.bow_mm, "mm"),
    Column("Stress at its end", "end_stress_mpa", lambda row: row.end_mpa, "MPa"),
    Column("Against it", "against", lambda row: against(row.checks)),
)
_BUSES: tuple[Column[BusRow], ...] = (
    Column("Ribbon", "ribbon", lambda row: row.strip.name),
    Column("Loss in all buses", "loss_w", lambda row: row.loss_w, "W"),
    Column("Of the panel", "loss_share", lambda row: row.share, "-", "%", 100.0),
    Column("Voltage", "drop_v", lambda row: row.drop_v, "V"),
    Column("", "mass_kg", lambda row: row.mass_kg),
)
Ribbon = TypeVar("Ribbon", TabRow, BusRow)


def priced(rows: tuple[Ribbon, ...], currency: str) -> tuple[Column[Ribbon], ...]:
    """Columns for money; none where no price is known."""
    if all(row.price is None for row in rows):
        return ()
    end = currency.lower()
    return (
        Column("Its price", f"price_{end}", lambda row: row.price, currency),
        Column("All counted", f"counted_{end}", lambda row: row.money, currency),
    )


def _tab(order: Order, tabs: tuple[TabRow, ...]) -> Weighed:
    grid = Grid((*_TABS, *priced(tabs, order.job.currency)), tabs, tabs[:_MOST_ROWS])
    why = sentences(_tab_reason(order, tabs[0]), _count_reason(tabs[0]))
    return grid.weighed("Which tabbing ribbon?", tabs[0].strip.name, why, order.job.units)


def _tab_reason(order: Order, best: TabRow) -> str:
    if order.parts.tab:
        return "As ordered; the ribbons of the shelf are weighed beside it, the best first."
    if not best.passed:
        return "No ribbon of the shelf keeps the rules for wafer and busbar; this one costs least."
    if best.price is None:
        return "It loses least by resistance and shadow together among those a cell bears."
    return "Its price and the watts it loses come to the least among those a cell bears."


def _count_reason(best: TabRow) -> str:
    """What one tab fewer on each cell would do."""
    fewer = best.fewer
    if fewer is None:
        return ""
    more_mw = 1000 * (fewer.total_w - best.counts[0].total_w)
    change = f"{abs(more_mw):.0f} mW {'more' if more_mw >= 0 else 'less'}"
    return f"Every busbar gets a tab: on {fewer.tabs} of {best.counts[0].tabs} a cell loses {change}."


def _bus(order: Order, buses: tuple[BusRow, ...]) -> Weighed:
    grid = Grid((*_BUSES, *priced(buses, order.job.currency)), buses, buses[:_MOST_ROWS])
    taken = buses[0].strip.name
    return grid.weighed("Which bus ribbon?", taken, _bus_reason(order, buses[0]), order.job.units)


def _bus_reason(order: Order, best: BusRow) -> str:
    if order.parts.bus:
        return "As ordered; the ribbons of the shelf are weighed beside it, the best first."
    if not best.passed:
        return "Every ribbon of the shelf loses more than one part in a hundred; this one loses least."
    if best.price is None:
        return "The lightest that loses no more than one part in a hundred."
    return "Its price, lost watts and room come to the least; no more than one part in a hundred is lost."
