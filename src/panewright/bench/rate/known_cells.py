"""How well the cells of a panel are known, and what its prediction may be off by then.

    measured     every cell that lies in it has figures of its own: what stays is the light they were read in,
                 the ribbons and joints, and what soldering does to a cell
    lot          the order tells how its lot scatters, or some of its cells were measured: the mean is known
    nameplate    nobody measured: whole lots lie a per cent or two beside their sheet, in Isc more than in Voc

All shares are one standard uncertainty, common practice, no source. Thirty-six cells in series average their
own scatter; they do not average what is common to a lot.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Way = Literal["measured", "lot", "nameplate"]


@dataclass(frozen=True, slots=True)
class CellsKnown:
    """Standard uncertainties of a panel's prediction, as shares of its figures."""

    way: Way
    words: str  #: how they are known
    power_share: float
    isc_share: float
    voc_share: float
    fill_share: float
    series_share: float  #: of Voc over Isc: its own resistance

    @property
    def told(self) -> str:
        """In a sentence."""
        shares = f"Pmp {self.power_share:.1%}, Isc {self.isc_share:.1%}, Voc {self.voc_share:.1%}"
        return f"Its cells are known {self.words}: the prediction is unsure by {shares} (k = 1)."


MEASURED = CellsKnown("measured", "one by one", 0.015, 0.01, 0.005, 0.01, 0.003)
LOT = CellsKnown("lot", "by the mean of their lot", 0.02, 0.015, 0.007, 0.012, 0.004)
NAMEPLATE = CellsKnown("nameplate", "by their nameplate alone", 0.03, 0.02, 0.01, 0.015, 0.005)


def cells_known(cells: int, measured: int, spread: float | None) -> CellsKnown:
    """Of so many cells, so many with figures of their own, out of a lot whose scatter may be known.

    >>> cells_known(36, 36, None).way, cells_known(36, 20, None).way, cells_known(36, 0, None).way
    ('measured', 'lot', 'nameplate')
    """
    if measured >= cells:
        return MEASURED
    return LOT if measured or spread is not None else NAMEPLATE
