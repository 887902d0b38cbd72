"""What sundries are counted by, and the mass of all parts."""

from __future__ import annotations

import math

from panewright.layup.buses import crossings, film_mm
from panewright.layup.layup import Layup
from panewright.layup.lengths import bus_pieces, cells_kg, joints, ribbon_kg, sleeve_m, tab_pieces
from panewright.order.order import Order
from panewright.panel.closed import Closing
from panewright.panel.electric.wiring import Wired
from panewright.panel.holding.field import fillet_ml
from panewright.panel.holding.held import Held
from panewright.ribbon.resistance import kg_per_m
from panewright.shelf.shelf import Shelf
from panewright.structure.closing_rows import film_kg_m2
from panewright.structure.contact import air_of, kept_apart
from panewright.structure.drilling.frame_plan import FramePlan
from panewright.structure.mass import Mass, panel_mass
from panewright.structure.sundries import Amounts, Closed, sold
from panewright.units import MM


def amounts_of(
    order: Order, layup: Layup, held: Held, frame: FramePlan, closing: Closing, wired: Wired, isc_a: float
) -> Amounts:
    """What sundries are counted by, for one panel."""
    pane, soldered, plan, holes = held.pane, joints(layup), layup.plan, frame.drilled
    gap, poured = order.parts.encapsulation == "air gap", closing.pour.pour if closing.pour else None
    return Amounts(
        encapsulation=order.parts.encapsulation,
        back_m2=math.prod(closing.back_mm) * MM**2,
        round_m=2 * (pane.long_mm + pane.short_mm) * MM,
        pour_kg=poured.mix_kg if poured else 0.0,
        pour_l=poured.mix_ml / 1000 if poured else 0.0,
        diodes=diodes_of(wired),
        corners=len(frame.pieces) if frame.joint else 0,
        corner_screws=holes["corner"],
        brackets=holes["bracket"],
        drains=holes["drain"],
        seams=soldered.on_cells,
        joints=soldered.on_buses + soldered.of_leads,
        isc_a=isc_a,
        blocks=held.bead.blocks,
        gap_mm=held.bead.bead.gap_mm,
        joint=frame.joint,
        welds=0 if frame.joint else len(frame.pieces),
        isolators=isolators_of(order, frame),
        poured_share=poured.poured_share if poured else 0.0,
        board_screws=holes["board"],
        desiccant_kg=order.closing.desiccant_g / 1000 if gap else 0.0,
        vents=1 if gap and order.closing.gap == "vented" else 0,
        film_m2=2 * film.long_mm * film.short_mm * MM**2 if (film := closing.film_sheet) else 0.0,
        fillet_ml=fillet_ml(order, pane),
        sleeve_m=sleeve_m(layup),
        plugs=1 if order.closing.leads == "plugs" else 0,
        ferrules=1 if order.closing.leads == "bare" else 0,
        film_m=len(crossings(layup.buses)) * film_mm(plan.bus_width_mm) * MM,
    )


def diodes_of(wired: Wired) -> int:
    """Bypass diodes in one panel."""
    plan = wired.layup.plan
    return plan.substrings * plan.strings if wired.bypass else 0


def isolators_of(order: Order, frame: FramePlan) -> int:
    """Stainless fasteners that get nylon washers and paste."""
    if not kept_apart(order.parts.isolate, air_of(order.site)):
        return 0
    stainless = frame.joint is not None and frame.joint.metal == "stainless"
    return frame.holes("bracket") + (frame.holes("corner") if stainless else 0)


def mass_of(held: Held, frame: FramePlan, layup: Layup, wired: Wired, amounts: Amounts, shelf: Shelf) -> Mass:
    """The finished panel, part by part; sundries as the parts list has them."""
    others = (
        ("cells", cells_kg(layup)),
        ("tabs", ribbon_kg(tab_pieces(layup), kg_per_m(wired.tab))),
        ("buses", ribbon_kg(bus_pieces(layup), kg_per_m(wired.bus))),
        *((each.name, each.mass_kg) for each in sold(amounts, shelf) if each.mass_kg > 0),
    )
    return panel_mass(held.pane, frame, held.bead.bead, others, also_ml=amounts.fillet_ml)


def closed_by(order: Order, shelf: Shelf, closing: Closing) -> Closed:
    """What closes it, by name; a shelf that keeps such things as sundries sells its first of them."""
    parts, kept = order.parts, {row.part.use for row in shelf.sundries}
    pour = closing.pour.silicone.name if closing.pour else ""
    film = closing.laminating.film if closing.laminating else None
    return Closed(
        pour=pour if parts.pour or "encapsulant" not in kept else "",
        film=film.name if film and (parts.film or "film" not in kept) else "",
        back=closing.back.name if parts.back or "back sheet" not in kept else "",
        film_kg_m2=film_kg_m2(film) if film else 0.0,
        back_kg_m2=closing.back.mass_kg_m2,
        board_screw=closing.board_screw,
    )
