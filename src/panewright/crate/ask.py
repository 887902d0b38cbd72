"""What a design asks of its crate: the only place here that knows a design."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.crate.fragility import Fragility, fragility
from panewright.crate.stack import Panel, behind_mm
from panewright.crate.timber import YARDS, Yard
from panewright.order.order import CrateWishes
from panewright.panel.design import Design, Structural
from panewright.structure.panes.shock import shock_pressure_pa
from panewright.units import MM


@dataclass(frozen=True, slots=True)
class Ask:
    """So many panels to send, and how."""

    panels: int
    panel: Panel
    fragility: Fragility
    wish: CrateWishes
    currency: str
    units: Literal["metric", "us"] = "metric"

    def __post_init__(self) -> None:
        if self.panels < 1:
            raise ValueError(f"an order has a panel, got {self.panels}")


def ask_of(design: Design) -> Ask:
    """A design as one who packs it sees it."""
    built, order = design.structural, design.order
    pressure = shock_pressure_pa(built.pane, order.site.family, order.parts.held)
    return Ask(
        panels=order.job.panels,
        panel=panel_of(built, design.label.mass_kg, YARDS[order.job.units]),
        fragility=fragility(order.crate.fragility, pressure, on_pane_kg_m2(built)),
        wish=order.crate,
        currency=order.job.currency,
        units=order.job.units,
    )


def panel_of(built: Structural, mass_kg: float, yard: Yard) -> Panel:
    """Its sizes over the frame and what stands out behind, up to whole steps of a rule."""
    short, long = sorted((yard.up(built.frame.outer_width_mm), yard.up(built.frame.outer_height_mm)))
    rail = built.rail
    under_mm = rail.upright_mm if rail.profile == "tube" else rail.wall_mm
    behind = behind_mm(under_mm + built.bead.glue_line_mm)
    deep, foam = yard.up(rail.upright_mm), yard.block_foam_mm
    return Panel(long, short, deep, yard.up(behind), mass_kg, foam_mm=foam)


def on_pane_kg_m2(built: Structural) -> float:
    """Mass that a stopped fall presses on a square metre of pane: all but the rails, the pane among it."""
    rails = dict(built.mass.parts)["rails"]
    area_m2 = built.pane.long_mm * built.pane.short_mm * MM**2
    return (built.mass.total_kg - rails) / area_m2
