"""What of an order is sent, as one who crates it sees it: finished panels, or the flat package of each kit.

A kit lies flat: its pane between two sheets of card, its rails and small parts in one layer over it, boards
on both faces. The package is as long as the longest rail or side, and as deep as pane, card and the fullest
of the layer: rails, cartridges, or small parts by their bulk. Sizes are by the parts list (common practice).
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from panewright.crate.ask import Ask, ask_of
from panewright.crate.fragility import fragility
from panewright.crate.stack import Panel
from panewright.crate.timber import YARDS
from panewright.order.order import Fragile
from panewright.pack.bench import told
from panewright.panel.design import Design
from panewright.price.bill import Line
from panewright.price.kit import Boxed, Sawn, packing, total_kg
from panewright.structure.panes.shock import shock_pressure_pa
from panewright.units import MM

# all common practice, no source
CARD_MM = 5.0  #: corrugated card on each face of the pane
CARTRIDGE_MM = 50.0  #: across a cartridge
LEAST_MM = 250.0  #: of a side of a package
BULK_KG_L = 0.35  #: of small parts in their bags and boxes
UNKNOWN_L = 0.1  #: of a line whose mass nobody knows
PAPERS_KG = 0.3


@dataclass(frozen=True, slots=True)
class Content:
    """What decides the size of a kit's package. [mm, kg]"""

    pane_mm: tuple[float, float, float] | None  #: long, short, thick; None where the customer brings it
    rails_mm: tuple[float, ...]  #: lengths; none where the customer brings them
    rail_mm: tuple[float, float]  #: seat and upright
    cartridges: bool
    small_l: float  #: bulk of all else

    @property
    def sides_mm(self) -> tuple[float, float, float]:
        """Long, short, deep."""
        seat, upright = self.rail_mm
        pane = self.pane_mm or (LEAST_MM, LEAST_MM, 0.0)
        long = max(pane[0], LEAST_MM, *self.rails_mm)
        short = max(pane[1], LEAST_MM, seat * len(self.rails_mm))
        free_mm2 = max(long * short - seat * sum(self.rails_mm), 0.25 * long * short)
        layer = max(
            upright if self.rails_mm else 0.0,
            CARTRIDGE_MM if self.cartridges else 0.0,
            self.small_l * 1e6 / free_mm2,
        )
        card = 2 * CARD_MM if self.pane_mm else CARD_MM
        return long, short, pane[2] + card + layer


def boxed(design: Design, lines: Iterable[Line]) -> tuple[Boxed, ...]:
    """What goes into the box of one kit; what its crate is built of does not."""
    frame, units = design.structural.frame, design.order.job.units
    sawn = tuple(
        Sawn(piece.name, told(piece.length_mm, units), 1, piece.length_mm / frame.rail_length_mm)
        for piece in frame.pieces
    )
    return packing(tuple(line for line in lines if line.group != "crate"), sawn)


def asked(design: Design, lines: Iterable[Line]) -> Ask:
    """What an order asks of its crates; `lines` are those of its quote."""
    return asked_for_kits(design, boxed(design, lines)) if design.order.kit.is_kit else ask_of(design)


def asked_for_kits(design: Design, found: tuple[Boxed, ...]) -> Ask:
    """So many packages, each as flat and as fragile as its pane."""
    order, content, yard = design.order, content_of(design, found), YARDS[design.order.job.units]
    mass_kg = total_kg(found) + PAPERS_KG
    long, short, deep = (yard.up(side) for side in content.sides_mm)
    short, long = sorted((long, short))
    return Ask(
        panels=order.job.panels,
        panel=Panel(
            *(long, short, deep, 0.0, mass_kg, "kit"),
            pane=content.pane_mm is not None,
            foam_mm=yard.block_foam_mm,
        ),
        fragility=fragility(_class_of(design, found), *_of_pane(design, content, found)),
        wish=order.crate,
        currency=order.job.currency,
        units=order.job.units,
    )


def content_of(design: Design, found: tuple[Boxed, ...]) -> Content:
    """What the packing list means for sizes."""
    pane, rail = design.structural.pane, design.structural.rail
    uses = {each.use for each in found}
    small = [each for each in found if each.use not in ("sheet", "rail")]
    litres = sum(UNKNOWN_L if each.mass_kg is None else each.mass_kg / BULK_KG_L for each in small)
    return Content(
        pane_mm=(pane.long_mm, pane.short_mm, pane.sheet.nominal_mm) if "sheet" in uses else None,
        rails_mm=tuple(p.length_mm for p in design.structural.frame.pieces) if "rail" in uses else (),
        rail_mm=(rail.seat_mm, rail.upright_mm),
        cartridges="sealant" in uses,
        small_l=litres,
    )


def _class_of(design: Design, found: tuple[Boxed, ...]) -> Fragile:
    """As the order says; where it says nothing, by what lies in the box: rails and silicone bear more."""
    order = design.order
    silent = any(each.key == "crate.fragility" for each in order.assumptions)
    brittle = any(each.use == "sheet" or each.group == "cells" for each in found)
    return "rugged" if silent and not brittle else order.crate.fragility


def _of_pane(design: Design, content: Content, found: tuple[Boxed, ...]) -> tuple[float | None, float]:
    """The pressure that its pane bears for a moment, and what presses on a square metre of it."""
    if content.pane_mm is None:
        return None, 0.0
    built, order = design.structural, design.order
    held_kg = total_kg(tuple(each for each in found if each.use != "rail"))
    area_m2 = math.prod(content.pane_mm[:2]) * MM**2
    return shock_pressure_pa(built.pane, order.site.family, order.parts.held), held_kg / area_m2
