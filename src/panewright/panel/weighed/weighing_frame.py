"""What was weighed for pane, rail, brackets and bead."""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby

from panewright.check import Check
from panewright.order.order import Order
from panewright.panel.design import Weighed
from panewright.panel.holding.held import Held
from panewright.panel.weighed.grid import Column, Grid, ordered, sentences
from panewright.structure.bead.choice import BeadRow
from panewright.structure.panes.choice import PaneRow, lightest
from panewright.structure.rails.frame_choice import FrameRow
from panewright.units import show


def _use(check: Check) -> float | None:
    return check.utilisation if check.covered else None


def _fails(passed: bool, worst: Check) -> str:
    """The rule that fails first, for people and programs; nothing where all hold."""
    if passed:
        return ""
    return worst.rule if worst.covered else f"not covered: {worst.rule}"


_PANE: tuple[Column[PaneRow], ...] = (
    Column("Sheet", "sheet", lambda row: row.pane.sheet.name),
    Column("Mass", "mass_kg", lambda row: row.mass_kg, "kg"),
    Column("Bows", "deflection_mm", lambda row: row.proof.deflection_mm if row.proof.known else None, "mm"),
    Column("Stress at worst", "peak_mpa", lambda row: row.proof.peak_mpa if row.proof.known else None, "MPa"),
    Column("Used", "used_share", lambda row: _use(row.worst), "-", "%", 100.0),
    Column("Fails first", "fails_first", lambda row: _fails(row.passed, row.worst)),
)


def weighed_pane(order: Order, held: Held) -> Weighed:
    """The sheet, with all that were proved."""
    rows, chosen = held.panes.rows, held.panes.chosen
    why = "The lightest sheet that keeps every rule."
    if order.parts.sheet:
        why = sentences("As ordered; the sheets of the shelf are weighed beside it.", _beside(held))
    elif not chosen.passed:
        why = "No sheet keeps every rule; this is nearest."
    by_mass = tuple(sorted(rows, key=lambda row: row.mass_kg))
    grid = Grid(_PANE, by_mass, by_mass)
    return grid.weighed("Which pane?", held.pane.sheet.name, why, order.job.units)


def _beside(held: Held) -> str:
    """What would have been taken, had the order not pinned a sheet."""
    best = lightest(held.panes.rows)
    if best is None:
        return "None of them keeps every rule."
    if best.pane.sheet == held.pane.sheet:
        return "It is the lightest that keeps every rule."
    return f"The lightest that keeps every rule is {best.pane.sheet.name}."


_RAIL: tuple[Column[FrameRow], ...] = (
    Column("Rail", "rail", lambda row: row.rail.name),
    Column("Four rails", "mass_kg", lambda row: row.mass_kg, "kg"),
    Column("Brackets a side", "brackets_a_side", lambda row: row.brackets.count),
    Column("Outer from ends", "bracket_from_end_mm", lambda row: row.brackets.from_end_mm, "mm"),
    Column("", "sag_held_mm", lambda row: row.long.deflection_held_mm),
    Column("", "sag_bead_mm", lambda row: row.long.service.bead.sag_mm),
    Column("", "sag_free_mm", lambda row: row.long.deflection_free_mm),
    Column("", "twist_free_deg", lambda row: row.long.service.free.twist_deg),
    Column("", "sideways_free_mm", lambda row: row.long.service.free.sideways_mm),
    Column("", "stress_mpa", lambda row: max(row.long.stress_held_mpa, row.long.stress_free_mpa)),
    Column("", "bracket_n", lambda row: row.long.reaction_n),
    Column("Used", "used_share", lambda row: _use(row.worst), "-", "%", 100.0),
    Column("Nearest its limit", "nearest_rule", lambda row: row.worst.rule),
    Column("Fails first", "fails_first", lambda row: _fails(row.passed, row.worst)),
)


def weighed_rail(order: Order, held: Held) -> Weighed:
    """The rail on its brackets, with every rail that was tried."""
    frame, units, parts = held.frame, order.job.units, order.parts
    taken = f"{held.rail.name}, {frame.brackets.count} brackets a long side, {_places(frame, units)}"
    pins = (
        ("rail", parts.rail),
        ("number of brackets", parts.brackets_per_long_side),
        ("place of the brackets", parts.bracket_places_mm or parts.bracket_from_end_mm),
    )
    grid = Grid(_RAIL, held.frames, _for_people(held))
    why = sentences(ordered(pins), _rail_why(order, held))
    return grid.weighed("Which rail, held where?", taken, why, units)


def _places(frame: FrameRow, units: str) -> str:
    """Where the brackets stand, in words."""
    if frame.brackets.all_mm is None:
        return f"the outer {show(frame.brackets.from_end_mm, 'mm', units)} from its ends"
    places = ", ".join(show(place, "mm", units) for place in frame.brackets.all_mm)
    return f"at {places} from its left end"


def _rail_why(order: Order, held: Held) -> str:
    """The reason for what the order left open."""
    parts = order.parts
    if not held.frame.passed:
        return "It does not keep every rule." if parts.rail else "No rail keeps every rule; this is nearest."
    said = [] if parts.rail else ["the lightest rail that keeps every rule"]
    placed = parts.bracket_places_mm is not None
    said += [] if parts.brackets_per_long_side or placed else ["on the fewest brackets that hold"]
    said += [] if parts.bracket_from_end_mm is not None or placed else ["these where the rail sags least"]
    words = ", ".join(said)
    return f"{words[:1].upper()}{words[1:]}." if words else ""


def _for_people(held: Held) -> tuple[FrameRow, ...]:
    """Of the rail taken every row; of each other its first that holds, or its nearest."""
    rows: list[FrameRow] = []
    for rail, group in groupby(held.frames, key=lambda row: row.rail):
        tried = list(group)
        best = next((row for row in tried if row.passed), min(tried, key=lambda row: row.distance))
        rows += tried if rail == held.rail else [best]
    return tuple(sorted(rows, key=lambda row: (row.mass_kg_m, row.rail.name, row.brackets.count)))


_BEAD: tuple[Column[BeadRow], ...] = (
    Column("Sealant", "sealant", lambda row: row.proof.bead.sealant.name),
    Column("", "bite_needed_mm", lambda row: row.proof.need.bite_mm),
    Column("Bite", "bite_mm", lambda row: row.proof.bead.bite_mm, "mm"),
    Column("", "glue_line_needed_mm", lambda row: row.proof.need.glue_line_mm),
    Column("Glue line", "glue_line_mm", lambda row: row.proof.bead.glue_line_mm, "mm"),
    Column("Gap needed", "gap_needed_mm", lambda row: row.proof.need.gap_mm, "mm"),
    Column("Gap", "gap_mm", lambda row: row.proof.bead.gap_mm, "mm"),
    Column("Cartridges", "cartridges", lambda row: row.cartridges),
    Column("Price of them", "cost", lambda row: None if row.cost is None else f"{row.cost:.2f}"),
    Column("Fails first", "fails_first", lambda row: _failing(row)),
)


def _failing(row: BeadRow) -> str:
    worst = max(row.proof.checks, key=lambda check: check.utilisation)
    return _fails(row.proof.passed, worst)


def weighed_bead(order: Order, held: Held) -> Weighed:
    """The bead, with those of the other structural sealants."""
    bead, need, units, parts = held.bead.bead, held.bead.need, order.job.units, order.parts
    taken = (
        f"bite {show(bead.bite_mm, 'mm', units)}, glue line {show(bead.glue_line_mm, 'mm', units)}, "
        f"gap {show(bead.gap_mm, 'mm', units)} all round, {bead.sealant.name}"
    )
    asks = (
        f"Suction asks for a bite of {show(need.bite_mm, 'mm', units)}, more where the seat turns; heat and "
        f"cold for a glue line of {show(need.glue_line_mm, 'mm', units)} and a gap of "
        f"{show(need.gap_mm, 'mm', units)}."
    )
    first = (
        "" if parts.sealant else "The shelf's first structural silicone is taken: it is the shop's usual one."
    )
    pins = (
        ("sealant", parts.sealant),
        ("bite", parts.bite_mm),
        ("glue line", parts.glue_line_mm),
        ("gap", parts.gap_mm),
    )
    columns = tuple(
        replace(each, head=f"{each.head}, {order.job.currency}") if each.key == "cost" else each
        for each in _BEAD
    )
    grid = Grid(columns, held.beads, held.beads)
    return grid.weighed("Which bead?", taken, sentences(ordered(pins), asks, first), units)
