"""What carries the panel, from the order's wishes and what the rails hand on."""

from __future__ import annotations

from dataclasses import replace

from panewright.check import Check
from panewright.climate.snow.drift import Drift
from panewright.frame.support.bracket import Bracket
from panewright.order.order import Order
from panewright.panel.holding.field import Weather
from panewright.panel.holding.held import Held
from panewright.shelf.shelf import Shelf
from panewright.structure.drilling.fixing import rows_that_fit
from panewright.structure.drilling.frame_plan import FramePlan
from panewright.structure.drilling.mount import judge_slope, mount_place
from panewright.structure.mounting.choice import MountingProof, bracket_for, prove
from panewright.structure.mounting.forces import BracketForces, Panel, Sides, bracket_forces, panel
from panewright.structure.rails.rails import hold_of
from panewright.structure.sundries import Amounts


def whole(
    order: Order, weather: Weather, frame: FramePlan, mass_kg: float, *, drift: Drift | None = None
) -> Panel:
    """The finished panel as its mounting sees it."""
    sides = Sides(frame.outer_width_mm, frame.outer_height_mm, mass_kg, frame.rail.upright_mm)
    return panel(order.site, sides, weather.wind, weather.snow, drift=drift)


def handed_on(held: Held, frame: FramePlan, seen: Panel) -> BracketForces:
    """What one bracket bears."""
    return bracket_forces(
        held.loads, held.frame.long.per_pa, seen, frame.holes("bracket"), fixed=frame.fixed_brackets
    )


def bracket_of(order: Order, held: Held, frame: FramePlan, seen: Panel, shelf: Shelf) -> Bracket:
    """The bracket that every rail bolt holds."""
    return bracket_for(order.mounting, shelf, handed_on(held, frame, seen), order.site.family)


def with_bracket(amounts: Amounts, bracket: Bracket, shelf: Shelf) -> Amounts:
    """The same amounts, with that bracket of the shelf's."""
    names = [row.name for row in rows_that_fit(shelf, "bracket", amounts.gap_mm)]
    return replace(amounts, bracket_row=names.index(bracket.name)) if bracket.name in names else amounts


def mounted(
    order: Order, held: Held, frame: FramePlan, seen: Panel, *, bracket: Bracket, shelf: Shelf
) -> MountingProof:
    """The mounting, chosen and judged."""
    forces = handed_on(held, frame, seen)
    count = frame.holes("bracket")
    return prove(order.mounting, bracket, seen, forces, brackets=count, shelf=shelf, units=order.job.units)


def slope_checks(held: Held, proof: MountingProof) -> tuple[Check, ...]:
    """The rail's own bolts under what goes down the slope."""
    return judge_slope(
        held.rail,
        mount_place(held.rail, held.bead.bead, held.pane),
        hold_of(held.frame.long.design),
        proof.forces.along_snow_n,
        runs_up=proof.panel.runs_up,
        family=held.loads.family,
    )
