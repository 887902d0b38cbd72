"""What lies before and behind the cells, as heat has to cross it.

Conductivities: clear two-part silicone 0.2 W/mK (recalled: 0.15 to 0.2), laminated film 0.35 (recalled),
plastic back sheet 0.2 (recalled), a back board of glass-fibre epoxy 0.3 (recalled). Sizes of what an order
does not tell: common practice, no source. The back sheet lies flat on the pour; where it stands off, each
0.1 mm of air before it makes the cells at work half a kelvin hotter. Behind an air gap the board is the back.
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.enclosure.encapsulant import BACK_MM, FRONT_MM


@dataclass(frozen=True, slots=True)
class Slab:
    """A layer of even thickness; air where it conducts nothing of its own."""

    thickness_mm: float
    conducts_w_mk: float | None  #: None is closed air


SILICONE_W_MK, FILM_W_MK, SHEET_W_MK, BOARD_W_MK = 0.2, 0.35, 0.2, 0.3
FILM_MM, SHEET_MM, BOARD_MM = 0.45, 0.35, 3.0
AIR_GAP_MM = 10.0
CELL_TAKES = 0.95
"""Of the whole sun's light that comes through the cover, what a textured cell takes in. Measured: 0.905
behind glass that lets 0.95 through (Santbergen, van Zolingen, Sol. Energy Mater. Sol. Cells 92, 2008, p. 432,
recalled)."""

_SHEET = Slab(SHEET_MM, SHEET_W_MK)
BEFORE = {
    "silicone pour": (Slab(FRONT_MM, SILICONE_W_MK),),
    "film": (Slab(FILM_MM, FILM_W_MK),),
    "air gap": (Slab(AIR_GAP_MM, None),),
}
BEHIND = {
    "silicone pour": (Slab(BACK_MM, SILICONE_W_MK), _SHEET),
    "film": (Slab(FILM_MM, FILM_W_MK), _SHEET),
    "air gap": (Slab(BOARD_MM, BOARD_W_MK),),  # the board is the back
}
