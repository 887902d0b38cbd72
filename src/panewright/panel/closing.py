"""What closes the panel: the pour behind the cells, what sundries are counted by, the mass of all parts."""

from __future__ import annotations

from panewright.cell.mass import mass_kg
from panewright.cell.shape import area_mm2
from panewright.enclosure.encapsulant import BACK_MM, FRONT_MM, Pour, PourAsk, pour
from panewright.layup.layup import Layup
from panewright.layup.lengths import bus_pieces, joints, ribbon_kg, tab_pieces
from panewright.order.order import Order
from panewright.panel.electric.wiring import Wired
from panewright.panel.holding.structural import Held
from panewright.ribbon.resistance import kg_per_m
from panewright.shelf.shelf import Shelf
from panewright.structure.contact import air_of, kept_apart
from panewright.structure.drilling.frame_plan import FramePlan
from panewright.structure.mass import Mass, panel_mass
from panewright.structure.rails.seat import dam_mm, poured_mm2
from panewright.structure.sundries import Amounts, sold
from panewright.units import MM


def pour_of(order: Order, layup: Layup, held: Held, wired: Wired) -> Pour | None:
    """The silicone to mix, where the order asks for a pour."""
    if order.parts.encapsulation != "silicone pour":
        return None
    ribbon = max(wired.tab, wired.bus, key=lambda strip: strip.thickness_mm)
    ask = PourAsk(
        pane_mm2=poured_mm2(held.pane, held.rail, held.bead.bead.gap_mm),
        front_mm=FRONT_MM,
        cell_mm=order.cell.shape.thickness_mm,
        back_mm=BACK_MM,
        cells_mm2=sum(area_mm2(cell.shape) for cell in layup.cells),
        ribbon_mm=ribbon.thickness_mm + 2 * ribbon.coat_mm,
        dam_mm=dam_mm(held.rail, held.bead.bead),
    )
    return pour(ask)


def amounts_of(
    order: Order, layup: Layup, held: Held, frame: FramePlan, poured: Pour | None, wired: Wired, isc_a: float
) -> Amounts:
    """What sundries are counted by, for one panel."""
    pane, soldered, plan = held.pane, joints(layup), layup.plan
    return Amounts(
        encapsulation=order.parts.encapsulation,
        pane_m2=pane.long_mm * pane.short_mm * MM**2,
        round_m=2 * (pane.long_mm + pane.short_mm) * MM,
        pour_kg=poured.mix_kg if poured else 0.0,
        pour_l=poured.mix_ml / 1000 if poured else 0.0,
        diodes=plan.substrings * plan.strings if wired.bypass else 0,
        corners=len(frame.pieces) if frame.joint else 0,
        corner_screws=frame.holes("corner"),
        brackets=frame.holes("bracket"),
        drains=frame.holes("drain"),
        seams=soldered.on_cells,
        joints=soldered.on_buses + soldered.of_leads,
        isc_a=isc_a,
        blocks=held.bead.blocks,
        gap_mm=held.bead.bead.gap_mm,
        joint=frame.joint,
        welds=0 if frame.joint else len(frame.pieces),
        isolators=isolators_of(order, frame),
        poured_share=poured.poured_share if poured else 0.0,
    )


def isolators_of(order: Order, frame: FramePlan) -> int:
    """Stainless fasteners that get nylon washers and paste."""
    if not kept_apart(order.parts.isolate, air_of(order.site)):
        return 0
    stainless = frame.joint is not None and frame.joint.metal == "stainless"
    return frame.holes("bracket") + (frame.holes("corner") if stainless else 0)


def mass_of(held: Held, frame: FramePlan, layup: Layup, wired: Wired, amounts: Amounts, shelf: Shelf) -> Mass:
    """The finished panel, part by part; sundries as the parts list has them."""
    others = (
        ("cells", sum(mass_kg(cell.shape) for cell in layup.cells)),
        ("tabs", ribbon_kg(tab_pieces(layup), kg_per_m(wired.tab))),
        ("buses", ribbon_kg(bus_pieces(layup), kg_per_m(wired.bus))),
        *((each.name, each.mass_kg) for each in sold(amounts, shelf) if each.mass_kg > 0),
    )
    return panel_mass(held.pane, frame, held.bead.bead, others)
