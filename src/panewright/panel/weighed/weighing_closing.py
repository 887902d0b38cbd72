"""What was weighed for silicone, film and back."""

from __future__ import annotations

from panewright.check import Check
from panewright.enclosure.back_board import every_check
from panewright.enclosure.back_sheet import Back
from panewright.enclosure.laminating import Laminating
from panewright.order.order import Order
from panewright.panel.closed import Closing
from panewright.panel.design import Weighed
from panewright.panel.poured import Poured
from panewright.panel.weighed.grid import Column, Grid


def _against(checks: tuple[Check, ...]) -> str:
    """The rules that fail."""
    return "; ".join(check.rule for check in checks if not check.passed)


_POURS: tuple[Column[Poured], ...] = (
    Column("Silicone", "silicone", lambda row: row.silicone.name),
    Column("Pot life", "pot_life_min", lambda row: row.work.pot_life_min, "min"),
    Column("Batches", "batches", lambda row: row.pour.batches),
    Column("All poured in", "poured_min", lambda row: row.card.poured_min, "min"),
    Column("Least bubble that leaves", "bubble_mm", lambda row: row.degassing.smallest_mm, "mm"),
    Column("Cured after", "cured_h", lambda row: row.work.full_h, "h"),
    Column("Against it", "against", lambda row: _against(row.checks)),
)
_FILMS: tuple[Column[Laminating], ...] = (
    Column("Film", "film", lambda row: row.film.name),
    Column("Held", "held_min", lambda row: row.phases[3].minutes, "min"),
    Column("Cold to cold", "total_min", lambda row: row.minutes, "min"),
    Column("Gel", "gel_share", lambda row: row.gel, "-", "%", 100.0),
    Column("Against it", "against", lambda row: _against(row.checks)),
)


def weighed_closing(order: Order, closing: Closing) -> tuple[Weighed, ...]:
    """Silicone or film, then the back."""
    pours = (_pour(order, closing),) if closing.poured else ()
    films = (_film(order, closing),) if closing.laminated else ()
    return (*pours, *films, _back(order, closing))


def _why(pinned: bool, passed: bool, what: str) -> str:
    if pinned:
        return f"As ordered; the {what} of the shelf are weighed beside it."
    return f"The shelf's first of its {what} that keeps every rule." if passed else "None keeps every rule."


def _pour(order: Order, closing: Closing) -> Weighed:
    rows = closing.poured
    why = _why(order.parts.pour is not None, rows[0].passed, "silicones")
    return Grid(_POURS, rows, rows).weighed(
        "Which silicone is poured?", rows[0].silicone.name, why, order.job.units
    )


def _film(order: Order, closing: Closing) -> Weighed:
    rows = closing.laminated
    why = _why(order.parts.film is not None, not _against(rows[0].checks), "films")
    return Grid(_FILMS, rows, rows).weighed("Which film?", rows[0].film.name, why, order.job.units)


def _back(order: Order, closing: Closing) -> Weighed:
    columns, rows = _backs(closing), closing.backs
    held = not _against(every_check(closing.back, closing.back_load, closing.screwed))
    why = _why(order.parts.back is not None, held, "backs")
    return Grid(columns, rows, rows).weighed("What closes the back?", closing.back.name, why, order.job.units)


def _backs(closing: Closing) -> tuple[Column[Back], ...]:
    return (
        Column("Back", "back", lambda row: row.name),
        Column("Holds", "holds_v", lambda row: row.holds_v, "V"),
        Column("Bears", "bears_c", lambda row: row.bears_c, "degC"),
        Column("Water, g a day", "water_g_m2_day", lambda row: row.water_g_m2_day, "-"),
        Column("Mass", "mass_kg_m2", lambda row: row.mass_kg_m2, "kg/m2"),
        Column(
            "Against it",
            "against",
            lambda row: _against(every_check(row, closing.back_load, closing.screwed)),
        ),
    )
