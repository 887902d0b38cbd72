"""Which sealant: the bead each one asks for, with the cartridges and what they cost."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from panewright.climate.heat import Temperatures
from panewright.frame.rail import Rail
from panewright.glass.pane import Pane
from panewright.seal.quantity import bead_volume_ml, cartridges
from panewright.seal.sealant import Bead, Sealant
from panewright.shelf.shelf import Row
from panewright.structure.bead.bead import BeadProof, Need, bead_for, bead_need, prove_bead
from panewright.structure.loads import Loads


@dataclass(frozen=True, slots=True)
class BeadPins:
    """What an order pins of its bead; None leaves it open."""

    bite_mm: float | None = None
    gap_mm: float | None = None
    glue_line_mm: float | None = None
    tolerance_mm: float | None = None  #: of the gap, for size and square; None by the family's standards


@dataclass(frozen=True, slots=True)
class BeadPlace:
    """Where a bead is drawn, and what it must bear there."""

    pane: Pane
    rail: Rail
    loads: Loads
    heat: Temperatures


@dataclass(frozen=True, slots=True)
class BeadRow:
    """One sealant with the bead it asks for."""

    proof: BeadProof
    cartridges: int  #: of the whole order
    price: Decimal | None  #: of one cartridge; None where the shelf has none

    @property
    def cost(self) -> Decimal | None:
        """All cartridges of the order, in the shelf's currency."""
        return None if self.price is None else self.cartridges * self.price


def weigh_bead(sealant: Sealant, place: BeadPlace, pins: BeadPins) -> BeadProof:
    """The smallest bead of one sealant that holds, with its proof."""
    bead, need = _drawn(sealant, place, pins)
    return prove_bead(place.pane, bead, place.loads, need)


def draw_bead(sealant: Sealant, place: BeadPlace, pins: BeadPins) -> Bead:
    """The same bead, not proved."""
    return _drawn(sealant, place, pins)[0]


def _drawn(sealant: Sealant, place: BeadPlace, pins: BeadPins) -> tuple[Bead, Need]:
    need = bead_need(place.pane, sealant, place.rail, place.loads, place.heat, tolerance_mm=pins.tolerance_mm)
    made = bead_for(sealant, need, bite_mm=pins.bite_mm, gap_mm=pins.gap_mm, glue_line_mm=pins.glue_line_mm)
    return made, need


def weigh_beads(
    taken: BeadProof,
    rows: Iterable[Row[Sealant]],
    place: BeadPlace,
    pins: BeadPins,
    panels: int,
    also_ml: float = 0.0,
) -> tuple[BeadRow, ...]:
    """The bead taken, and those of the other structural sealants; each does `also_ml` besides."""
    kept = {row.part: row.price for row in rows}
    others = (part for part in kept if part.structural and part != taken.bead.sealant)
    proofs = (taken, *(weigh_bead(part, place, pins) for part in others))
    return tuple(_row(proof, place.pane, kept.get(proof.bead.sealant), panels, also_ml) for proof in proofs)


def _row(proof: BeadProof, pane: Pane, price: Decimal | None, panels: int, also_ml: float) -> BeadRow:
    volume = bead_volume_ml(proof.bead, pane.long_mm, pane.short_mm, pane.sheet.nominal_mm)
    return BeadRow(proof, cartridges(volume + also_ml, proof.bead, panels), price)
