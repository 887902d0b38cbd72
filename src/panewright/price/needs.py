"""What one panel takes: every part with its amount, read from the design.

Amounts follow from the geometry where there is one. Where there is none they are common practice without a
source, and stand in the constants below.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace
from decimal import Decimal
from typing import Protocol, TypeVar

from panewright.cutting.plan import CutPlan
from panewright.drawing.dimension import figure_digits
from panewright.layup.lengths import BUS_WASTE, TAB_WASTE, bus_pieces, cells_kg, joints, tab_pieces
from panewright.panel.design import Design
from panewright.price.actuals import Actuals, Taken, breakage, own_waste, waste, with_own
from panewright.price.bill import PIECES, Group, Need
from panewright.price.breakage import BREAKAGE, cells_to_buy
from panewright.price.hours import Count
from panewright.price.money import exact
from panewright.price.mounting import mounting_needs
from panewright.price.sundries import sundry_needs
from panewright.ribbon.resistance import kg_per_m
from panewright.seal.quantity import WASTE as BEAD_WASTE
from panewright.seal.quantity import bead_volume_ml, cartridges
from panewright.shelf.shelf import Row, Shelf
from panewright.structure.drilling.fixing import Purpose
from panewright.structure.mass import bead_mass_kg, frame_mass_kg, pane_mass_kg
from panewright.units import MM, show

DIODE_KG = 0.002  #: an axial diode of 10 to 20 A (recalled)
NOT_ON_SHELF = "described by the order; not on the shelf"


class Named(Protocol):
    """Anything on a shelf has a name."""

    @property
    def name(self) -> str:
        """As an order writes it."""
        ...


Thing = TypeVar("Thing", bound=Named)


def needs(
    design: Design, shelf: Shelf, cuts: CutPlan | None, actuals: Actuals | None = None
) -> tuple[Need, ...]:
    """Every part of one panel; `cuts` are the bars of the order, `actuals` what this shop loses."""
    own = actuals or Actuals()
    return (
        _cells(design, shelf, own),
        *_lost(own, *_ribbons(design, shelf), _glass(design, shelf), _rails(design, shelf, cuts)),
        _sealant(design, shelf, own),
        *_lost(
            own,
            *_bypasses(design, shelf),
            *sundry_needs(design.amounts, shelf),
            *mounting_needs(design.structural.mounting, shelf),
        ),
    )


def _lost(actuals: Actuals, *parts: Need) -> Iterator[Need]:
    """Parts with the share that this shop loses of them."""
    for need in parts:
        yield own_waste(need, actuals.of(need.name, need.sold_by))


def on_shelf(rows: tuple[Row[Thing], ...], part: Thing) -> Row[Thing] | None:
    """The row of a part, by its name; None where the order described a part of its own."""
    return next((row for row in rows if row.name == part.name), None)


def _need(group: Group, row: Row[Thing] | None, part: Thing, by: Mapping[str, float]) -> Need:
    """A part's need, counted in the way its row is sold; `by` tells every way, the usual one first."""
    usual = next(iter(by))
    if row is None or row.sold_by not in by:
        source = NOT_ON_SHELF if row is None else f"sold by {row.sold_by}: cannot be counted so"
        return Need(group, part.name, exact(by[usual]), usual, None, source=source)
    return Need(group, part.name, exact(by[row.sold_by]), row.sold_by, row.price, source=row.source)


def _in_pieces(need: Need, order: int | None) -> Need:
    """Whole pieces to buy for the order, where it is pieces that are sold."""
    if need.sold_by not in PIECES or order is None:
        return need
    return replace(need, buy=Decimal(order))


def whole_cells(design: Design, panels: int) -> int:
    """Cells as bought that so many panels take, none broken."""
    return math.ceil(len(design.layup.cells) * panels / design.order.cell.parts)


def cells_bought(design: Design, shelf: Shelf, actuals: Actuals | None) -> int:
    """Cells to buy for the whole order, so that enough good ones are left."""
    chance, _ = _broken(design, shelf, actuals or Actuals())
    return cells_to_buy(whole_cells(design, design.order.job.panels), float(chance))


def _broken(design: Design, shelf: Shelf, actuals: Actuals) -> tuple[Decimal, Taken | None]:
    """Chance that a cell breaks, and what the shop's own part in it is."""
    cell = design.order.cell
    row = on_shelf(shelf.cells, cell)
    own = actuals.of(cell.name, row.sold_by if row else "each")
    return breakage(exact(BREAKAGE), own), own


def _cells(design: Design, shelf: Shelf, actuals: Actuals) -> Need:
    cell, (chance, own) = design.order.cell, _broken(design, shelf, actuals)
    one = whole_cells(design, 1)
    need = _need("cells", on_shelf(shelf.cells, cell), cell, {"each": one})
    mass = cells_kg(design.layup)
    need = replace(need, waste=chance, mass_kg=mass, source=with_own(need.source, own), use="cell")
    return _in_pieces(need, cells_bought(design, shelf, actuals))


_RIBBON = {"tab": "tabbing ribbon", "bus": "bus ribbon"}


def _ribbons(design: Design, shelf: Shelf) -> Iterator[Need]:
    """Tabbing and bus ribbon, by the metre or by mass."""
    tab, bus = design.electrical.tab, design.electrical.bus
    tabs_m = sum(piece.metres for piece in tab_pieces(design.layup))
    buses_m = sum(piece.metres for piece in bus_pieces(design.layup))
    for strip, rows, metres, lost, use in (
        (tab, shelf.tabs, tabs_m, TAB_WASTE, "tab"),
        (bus, shelf.buses, buses_m, BUS_WASTE, "bus"),
    ):
        mass = metres * kg_per_m(strip)
        need = _need("ribbon", on_shelf(rows, strip), strip, {"metre": metres, "kilogram": mass})
        yield replace(need, waste=exact(lost), mass_kg=mass, size=_RIBBON[use], use=use)


def _told(length_mm: float, units: str) -> str:
    return show(length_mm, "mm", units, figure_digits(length_mm))


def _glass(design: Design, shelf: Shelf) -> Need:
    pane, units = design.structural.pane, design.order.job.units
    by = {"square metre": pane.long_mm * pane.short_mm * MM**2, "each": 1.0}
    sides = f"{_told(pane.long_mm, units)} × {_told(pane.short_mm, units)}"
    need = _need("glass", on_shelf(shelf.sheets, pane.sheet), pane.sheet, by)
    return replace(need, size=sides, mass_kg=pane_mass_kg(pane), use="sheet")


def _rails(design: Design, shelf: Shelf, cuts: CutPlan | None) -> Need:
    """Bars, as the cut plan buys them."""
    frame, rail = design.structural.frame, design.structural.rail
    bars, mass = frame.rail_length_mm / rail.bar_mm, frame_mass_kg(frame)
    by = {"bar": bars, "each": bars, "metre": frame.rail_length_mm * MM, "kilogram": mass}
    size = f"bars of {_told(rail.bar_mm, design.order.job.units)}"
    need = replace(_need("frame", on_shelf(shelf.rails, rail), rail, by), size=size, mass_kg=mass, use="rail")
    return _in_pieces(need, len(cuts.bars) if cuts else None)


def _sealant(design: Design, shelf: Shelf, actuals: Actuals) -> Need:
    built = design.structural
    pane, bead = built.pane, built.bead
    volume = (
        bead_volume_ml(bead, pane.long_mm, pane.short_mm, pane.sheet.nominal_mm) + design.amounts.fillet_ml
    )
    number = volume / bead.sealant.cartridge_ml
    need = _need(
        "seal",
        on_shelf(shelf.sealants, bead.sealant),
        bead.sealant,
        {"cartridge": number, "each": number, "litre": volume / 1000},
    )
    size, mass = (
        f"{bead.sealant.cartridge_ml:.0f}\u2009ml",
        bead_mass_kg(pane, bead, design.amounts.fillet_ml),
    )
    own = actuals.of(need.name, need.sold_by)
    lost = waste(need.one, exact(BEAD_WASTE), own)
    need = replace(
        need, waste=lost, size=size, mass_kg=mass, source=with_own(need.source, own), use="sealant"
    )
    return _in_pieces(need, cartridges(volume, bead, design.order.job.panels, float(lost)))


def _bypasses(design: Design, shelf: Shelf) -> Iterator[Need]:
    bypass = design.electrical.bypass
    if bypass is not None:
        need = _need("electrical", on_shelf(shelf.bypasses, bypass), bypass, {"each": diodes(design)})
        yield replace(need, use="bypass", sent_kg=DIODE_KG * diodes(design))


def diodes(design: Design) -> int:
    """Bypass diodes in one panel."""
    return design.amounts.diodes


def holes(design: Design, purpose: Purpose | None = None) -> int:
    """Holes in all rails of one frame, of one purpose or of all."""
    return design.structural.frame.holes(purpose)


def board_holes(design: Design) -> int:
    """Holes and slits of a screwed back board: its screws, its vent, and where ribbons come out."""
    if not design.closing.screwed:
        return 0
    amounts, layup = design.amounts, design.layup
    return amounts.board_screws + amounts.vents + len(layup.tails)


def counts(design: Design) -> dict[Count, Decimal]:
    """What the hours are counted by, over the whole order."""
    panels, plan, frame = design.order.job.panels, design.layup.plan, design.structural.frame
    pane, soldered, pour = design.structural.pane, joints(design.layup), design.pour
    each: dict[Count, float] = {
        "panels": 1,
        "cells": len(design.layup.cells),
        "cut cells": len(design.layup.cells) if design.order.cell.parts > 1 else 0,
        "tab ends": soldered.on_cells,
        "columns": plan.columns,
        "bus joints": soldered.on_buses + soldered.of_leads,
        "tails": len(design.layup.tails),
        "plugs": 2 * design.amounts.plugs,
        "ferrules": 2 * design.amounts.ferrules,
        "diodes": diodes(design),
        "rails": len(frame.pieces),
        "holes": holes(design),
        "corners": design.amounts.corners,
        "welded corners": design.amounts.welds,
        "seats cut back": sum(2 for piece in frame.pieces if piece.cope_mm > 0),
        "boards": 1 if design.closing.screwed else 0,
        "board holes": board_holes(design),
        "metres of bead": 2 * (pane.long_mm + pane.short_mm) * MM,
        "brackets": holes(design, "bracket"),
        "batches of pour": pour.batches if pour else 0,
        "kilograms of pour": pour.mix_kg if pour else 0.0,
        "kits": 1 if design.order.kit.is_kit else 0,
    }
    found = {name: exact(round(value * panels, 2)) for name, value in each.items()}
    patches = Decimal(panels if design.order.kit.is_kit else 1) if pour else Decimal(0)
    return {"orders": Decimal(1), "trial patches": patches, **found}
