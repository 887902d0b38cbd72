"""What was weighed for each choice the order left open, as words and tables for a person."""

from __future__ import annotations

from typing import Literal

from panewright.circuit.string_count import CountRow, StringStudy
from panewright.order.order import Order
from panewright.panel.design import Weighed
from panewright.panel.structural import Held
from panewright.ribbon.choice import BusRow, TabRow
from panewright.structure.pane_choice import PaneRow
from panewright.structure.rails import RailProof
from panewright.units import show

Units = Literal["metric", "us"]
_MOST_ROWS = 8


def weighed(
    order: Order, study: StringStudy, held: Held, tabs: tuple[TabRow, ...], buses: tuple[BusRow, ...]
) -> tuple[Weighed, ...]:
    """Every choice, in the order in which the maker meets it."""
    return (
        _string(study),
        _layout(held),
        _tab(tabs),
        _bus(buses),
        _pane(order, held),
        _frame(order, held),
        _bead(order, held),
    )


def _string(study: StringStudy) -> Weighed:
    taken = f"{study.chosen} cells in series"
    columns = ("Cells", "Hot, at work", "Needed then", "Cold, open", "Controller bears", "Into battery", "")
    rows = tuple(_count(row) for row in study.rows)
    return Weighed("How many cells in series?", taken, study.reason, columns, rows if study.window else ())


def _count(row: CountRow) -> tuple[str, ...]:
    figures = (show(volt, "V") for volt in (row.hot_vmp_v, row.needed_v, row.cold_voc_v, row.most_v))
    return (str(row.cells), *figures, show(row.battery_a, "A"), row.verdict)


def _layout(held: Held) -> Weighed:
    best = held.ranked[0]
    rows = tuple((f"{each.score:.0f}", each.words) for each in held.ranked[:_MOST_ROWS])
    taken = f"{best.plan.columns} columns of {best.plan.rows}"
    why = "Points are taken off for what a lay-out costs at the bench; the highest is taken."
    return Weighed("How are they laid?", taken, why, ("Points", "Lay-out"), rows)


def _tab(tabs: tuple[TabRow, ...]) -> Weighed:
    rows = tuple(
        (
            row.strip.name,
            show(1000 * row.resistance_w, "mW"),
            show(1000 * row.shadow_w, "mW"),
            show(1000 * row.total_w, "mW"),
            "" if row.passed else "; ".join(check.rule for check in row.checks if not check.passed),
        )
        for row in tabs[:_MOST_ROWS]
    )
    why = "It loses least by resistance and shadow together among those a cell bears."
    columns = ("Ribbon", "Resistance, a cell", "Shadow, a cell", "Together", "Against it")
    return Weighed("Which tabbing ribbon?", tabs[0].strip.name, why, columns, rows)


def _bus(buses: tuple[BusRow, ...]) -> Weighed:
    rows = tuple(
        (row.strip.name, show(row.loss_w, "W"), show(100 * row.share, "%"), show(row.drop_v, "V"))
        for row in buses[:_MOST_ROWS]
    )
    why = "The lightest that loses no more than one part in a hundred."
    columns = ("Ribbon", "Loss in all buses", "Of the panel", "Voltage")
    return Weighed("Which bus ribbon?", buses[0].strip.name, why, columns, rows)


def _pane(order: Order, held: Held) -> Weighed:
    rows = tuple(_sheet(order, row) for row in sorted(held.panes.rows, key=lambda row: row.mass_kg))
    passed = held.panes.chosen.passed
    why = (
        "The lightest sheet that keeps every rule."
        if passed
        else "No sheet keeps every rule; this is nearest."
    )
    columns = ("Sheet", "Mass", "Bows", "Stress at worst", "Used", "Fails first")
    return Weighed("Which pane?", held.pane.sheet.name, why, columns, rows)


def _sheet(order: Order, row: PaneRow) -> tuple[str, ...]:
    worst = max(row.proof.checks, key=lambda check: check.utilisation)
    units = order.job.units
    return (
        row.pane.sheet.name,
        show(row.mass_kg, "kg", units),
        show(row.proof.deflection_mm, "mm", units),
        show(row.proof.peak_mpa, "MPa", units),
        show(100 * worst.utilisation, "%") if worst.covered else "not covered",
        "" if row.passed else worst.rule,
    )


def _frame(order: Order, held: Held) -> Weighed:
    frame, units = held.frame, order.job.units
    places = show(frame.brackets.from_end_mm, "mm", units)
    taken = f"{held.rail.name}, {frame.brackets.count} brackets a long side, the outer {places} from its ends"
    rows = tuple(
        (proof.side, show(proof.length_mm, "mm", units), *_sags(proof, units))
        for proof in (frame.long, frame.short)
    )
    why = "The lightest rail that keeps every rule, on the fewest brackets, where they let it sag least."
    if not frame.passed:
        why = "No rail of the shelf keeps every rule; this one comes nearest."
    columns = ("Rail", "Length", "Sag, held by the pane", "Sag, free sideways", "Stress", "Bracket carries")
    return Weighed("Which rail, held where?", taken, why, columns, rows)


def _sags(proof: RailProof, units: Units) -> tuple[str, ...]:
    return (
        show(proof.deflection_held_mm, "mm", units),
        show(proof.deflection_free_mm, "mm", units),
        show(max(proof.stress_held_mpa, proof.stress_free_mpa), "MPa", units),
        show(proof.reaction_n, "N", units),
    )


def _bead(order: Order, held: Held) -> Weighed:
    bead, need, units = held.bead.bead, held.bead.need, order.job.units
    taken = (
        f"bite {show(bead.bite_mm, 'mm', units)}, glue line {show(bead.glue_line_mm, 'mm', units)}, "
        f"gap {show(bead.gap_mm, 'mm', units)} all round, {bead.sealant.name}"
    )
    why = (
        f"Suction asks for a bite of {show(need.bite_mm, 'mm', units)}, heat and cold for a glue line of "
        f"{show(need.glue_line_mm, 'mm', units)} and a gap of {show(need.gap_mm, 'mm', units)}."
    )
    return Weighed("Which bead?", taken, why)
