"""What is done to the pane after it was bought: cut down from a stock sheet, drilled.

Tempered and heat-strengthened glass is cut, drilled and ground before it is heated and never after: it
bursts, or loses what the heating gave it. Glass shops keep tempered panes in some sizes: such a pane serves
whole or not at all. Annealed glass and plastics may be cut down. A hole draws stress that the plate of
neither rule book knows.

EN 12150-1 and EN 1863-1, ASTM C1048: all work on the edges and all holes before heating (recalled); trade
habit.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from panewright.check import Check
from panewright.climate.site import Family
from panewright.glass.pane import Pane

HEATED = ("tempered", "heat-strengthened")
_ROOM = "glass"


@dataclass(frozen=True, slots=True)
class GlassWork:
    """How the pane is come by."""

    from_stock: bool = False  #: cut down from a larger stock sheet; else ordered to size
    holes: int = 0
    stock_mm: tuple[tuple[float, float], ...] = ()  #: long and short sides that glass shops keep


def work_checks(pane: Pane, work: GlassWork, family: Family) -> tuple[Check, ...]:
    """What may not be done to this pane."""
    return (*_after_heating(pane, work, family), *_holes(pane, work, family), *_out_of_stock(pane, work))


def _after_heating(pane: Pane, work: GlassWork, family: Family) -> Iterator[Check]:
    book = "ASTM C1048" if family == "ASCE" else "EN 12150-1, EN 1863-1"
    if pane.sheet.treatment in HEATED:
        yield Check(
            f"cuts and holes in {pane.sheet.treatment} glass",
            float(work.from_stock) + work.holes,
            0.0,
            "-",
            f"{book}: all work before the glass is heated (recalled); it bursts after",
            "Order the pane to its finished size, with holes and ground edges made before it is tempered.",
            _ROOM,
        )


def _holes(pane: Pane, work: GlassWork, family: Family) -> Iterator[Check]:
    book = "ASTM E1300 proves" if family == "ASCE" else "EN 16612 proves"
    if work.holes:
        yield Check(
            "holes through the pane",
            float(work.holes),
            None,
            "-",
            f"{book} no drilled {pane.sheet.material} by an even plate",
            "Lead cables over the edge or through the back, or let a glass engineer prove the pane.",
            _ROOM,
        )


def _out_of_stock(pane: Pane, work: GlassWork) -> Iterator[Check]:
    """The longest stock sheet that is wide enough; 0 where none is."""
    if work.from_stock and pane.sheet.treatment not in HEATED:
        wide = [long for long, short in work.stock_mm if short >= pane.short_mm]
        yield Check(
            "pane out of a stock sheet",
            pane.long_mm,
            max(wide, default=0.0),
            "mm",
            "sizes that glass shops keep, from the shelf",
            "Order the pane to size, or take another lay-out.",
            _ROOM,
        )
