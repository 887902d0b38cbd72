"""What was weighed for each choice the order left open, and beside each that it pins."""

from __future__ import annotations

from panewright.check import Check
from panewright.circuit.string_count import CountRow, StringStudy
from panewright.layup.rank import Ranked
from panewright.order.order import Order
from panewright.panel.design import Weighed
from panewright.panel.grid import Column, Grid, ordered, sentences
from panewright.panel.structural import Held
from panewright.panel.weighing_frame import weighed_bead, weighed_pane, weighed_rail
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
    taken = f"{best.plan.columns} columns of {best.plan.rows}"
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
    Column("Against it", "against", lambda row: against(row.checks)),
)


def _tab(order: Order, tabs: tuple[TabRow, ...]) -> Weighed:
    best = tabs[0]
    why = "It loses least by resistance and shadow together among those a cell bears."
    if order.parts.tab:
        why = "As ordered; the ribbons of the shelf are weighed beside it, the best first."
    elif not best.passed:
        why = "No ribbon of the shelf keeps the guides of the trade; this one loses least."
    grid = Grid(_TABS, tabs, tabs[:_MOST_ROWS])
    return grid.weighed("Which tabbing ribbon?", best.strip.name, why, order.job.units)


_BUSES: tuple[Column[BusRow], ...] = (
    Column("Ribbon", "ribbon", lambda row: row.strip.name),
    Column("Loss in all buses", "loss_w", lambda row: row.loss_w, "W"),
    Column("Of the panel", "loss_share", lambda row: row.share, "-", "%", 100.0),
    Column("Voltage", "drop_v", lambda row: row.drop_v, "V"),
    Column("", "mass_kg", lambda row: row.mass_kg),
)


def _bus(order: Order, buses: tuple[BusRow, ...]) -> Weighed:
    best = buses[0]
    why = "The lightest that loses no more than one part in a hundred."
    if order.parts.bus:
        why = "As ordered; the ribbons of the shelf are weighed beside it, the best first."
    elif not best.passed:
        why = "Every ribbon of the shelf loses more than one part in a hundred; this one loses least."
    grid = Grid(_BUSES, buses, buses[:_MOST_ROWS])
    return grid.weighed("Which bus ribbon?", best.strip.name, why, order.job.units)
