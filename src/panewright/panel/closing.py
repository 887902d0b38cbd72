"""What closes the panel: the pour behind the cells, and the mass of all parts."""

from __future__ import annotations

from panewright.cell.mass import mass_kg
from panewright.cell.shape import area_mm2
from panewright.enclosure.encapsulant import Pour, PourAsk, pour
from panewright.layup.layup import Layup
from panewright.order.order import Order
from panewright.panel.structural import Held
from panewright.panel.wiring import Wired
from panewright.ribbon.choice import BusRow, TabRow
from panewright.structure.frame_plan import FramePlan
from panewright.structure.mass import Mass, panel_mass
from panewright.structure.seat import dam_mm, poured_mm2

FRONT_MM, BACK_MM = 1.0, 2.0  #: silicone from glass to cell face and over the backs; common practice
BOX_AND_LEADS_KG = 0.4  #: junction box, a metre of lead at each pole, label; weighed figures, from memory
FILM_KG_M2 = 0.95  #: two films of 0.45 mm and a back sheet; from their densities


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


def mass_of(
    held: Held, frame: FramePlan, layup: Layup, tab: TabRow, bus: BusRow, poured: Pour | None
) -> Mass:
    """The finished panel, part by part."""
    others = (
        ("cells", sum(mass_kg(cell.shape) for cell in layup.cells)),
        ("ribbon", len(layup.cells) * tab.mass_kg + bus.mass_kg),
        ("encapsulant", poured.poured_kg if poured else _film_kg(layup)),
        ("box and leads", BOX_AND_LEADS_KG),
    )
    return panel_mass(held.pane, frame, held.bead.bead, others)


def _film_kg(layup: Layup) -> float:
    return FILM_KG_M2 * layup.pane_width_mm * layup.pane_height_mm * 1e-6
