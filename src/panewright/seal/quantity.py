"""How much sealant a bead takes."""

from __future__ import annotations

import math

from panewright.seal.sealant import Bead

WASTE = 0.10  #: left in nozzle and tooled off, common practice
FILLET_MM = 6.0  #: legs of the fillet that holds a back sheet on a pour to the seats; common practice


def bead_volume_ml(bead: Bead, long_mm: float, short_mm: float, thickness_mm: float) -> float:
    """Silicone under the rim and in the gap round one pane, waste not counted. [ml]

    The glue line lies `bite` wide under the rim; the gap is filled from the seat to the pane's face.
    """
    under = 2 * bead.bite_mm * (long_mm + short_mm - 2 * bead.bite_mm) * bead.glue_line_mm
    beside = 2 * bead.gap_mm * (long_mm + short_mm + 2 * bead.gap_mm) * (bead.glue_line_mm + thickness_mm)
    return (under + beside) / 1000


def back_fillet_ml(long_mm: float, short_mm: float) -> float:
    """Silicone in the corner between a back sheet and the seats round it, waste not counted. [ml]

    >>> round(back_fillet_ml(1000.0, 500.0), 1)
    54.0
    """
    return 2 * (long_mm + short_mm) * FILLET_MM**2 / 2 / 1000


def cartridges(volume_ml: float, bead: Bead, panels: int = 1, waste: float = WASTE) -> int:
    """Whole cartridges for so many panels, waste counted."""
    return math.ceil(panels * volume_ml * (1 + waste) / bead.sealant.cartridge_ml - 1e-9)
