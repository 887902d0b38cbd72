"""The long rails of a design as heat and cold move them along their brackets."""

from __future__ import annotations

from panewright.check import Check
from panewright.order.order import Order
from panewright.panel.holding.field import Weather
from panewright.panel.holding.held import Held
from panewright.structure.drilling.frame_plan import bracket_slots
from panewright.structure.drilling.mount import mount_place
from panewright.structure.drilling.slots import Growth, judge_slots, strain_of
from panewright.structure.rails.rails import hold_of


def growth_of(order: Order, held: Held, weather: Weather) -> Growth:
    """What a long rail does against what carries it."""
    strain = strain_of(held.rail.alloy, weather.heat, order.mounting.on)
    return Growth(strain, held.frame.long.design.slide_mm)


def growth_checks(order: Order, held: Held, weather: Weather) -> tuple[Check, ...]:
    """Room for it in the brackets' holes."""
    long, rail, bead = held.frame.long, held.rail, held.bead.bead
    places = held.frame.brackets.places_mm(long.length_mm)
    slots = bracket_slots(places, long.length_mm, 0, growth_of(order, held, weather))
    place = mount_place(rail, bead, held.pane)
    return judge_slots(rail, place, hold_of(long.design), slots, held.loads.family)
